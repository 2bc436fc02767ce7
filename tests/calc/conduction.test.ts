import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  centreRatio,
  contactC,
  firstRoot,
  type SetCourse,
  setTimeSec,
  uptakeShare,
} from '#calc/conduction.ts';
import { expectNear, expectWithin } from '../hands/within.ts';

const bait: SetCourse = { shape: 'round', thicknessMm: 10, pourC: 165, wallC: 40, openC: 60 };

/** First roots of J0 and J1 there: Abramowitz and Stegun, Table 9.5, from memory. */
const J0_ROOTS = [
  [2.4048255577, 0.5191474973],
  [5.5200781103, -0.3402648065],
  [8.6537279129, 0.2714522999],
  [11.791534439, -0.2324598314],
] as const;

function seconds(course: SetCourse): number {
  const sec = setTimeSec(course);
  if (sec === 'never') throw new Error('This part sets.');
  return sec;
}

describe('the first root', () => {
  // A8 to A10. Cengel and Ghajar, Heat and Mass Transfer 6e, Table 4-2, as published.
  test.each([
    ['flat', 0.01, 0.0998, 1.0017],
    ['flat', 1, 0.8603, 1.1191],
    ['flat', 10, 1.4289, 1.262],
    ['round', 0.1, 0.4417, 1.0246],
    ['round', 1, 1.2558, 1.2071],
    ['round', 10, 2.1795, 1.5677],
    ['ball', 0.5, 1.1656, 1.1441],
    ['ball', 1, 1.5708, 1.2732],
    ['ball', 10, 2.8363, 1.9249],
  ] as const)('of a %s body at Biot %d is the book value', (shape, biot, zeta, c1) => {
    const root = firstRoot(shape, biot);
    expectWithin(root.zeta, zeta, 1e-4);
    expectWithin(root.c1, c1, 1e-4);
  });

  // A11. Limits as printed by Cengel (4-2) and Incropera (Table 5.1), rounding of the books covered.
  test.each([
    ['flat', 1.5708, 1.2732],
    ['round', 2.4048, 1.602],
    ['ball', Math.PI, 2],
  ] as const)('of a %s body with its surface held is the limit', (shape, zeta, c1) => {
    for (const biot of [1e12, Number.POSITIVE_INFINITY]) {
      const root = firstRoot(shape, biot);
      expectWithin(root.zeta, zeta, 3e-4);
      expectWithin(root.c1, c1, 3e-4);
    }
  });

  test.each(['flat', 'round', 'ball'] as const)('of a %s body that cannot cool is 0', (shape) => {
    expect(firstRoot(shape, 0)).toEqual({ zeta: 0, c1: 1 });
    expect(centreRatio(shape, 0, 100)).toBe(1);
  });

  test('of a body with hardly any film follows the lumped law', () => {
    // Lumped: theta falls by exp(-Bi Fo) (V/A)-wise; zeta^2 = Bi, 2 Bi, 3 Bi (INC ch. 5, from memory).
    const biot = 1e-6;
    for (const [shape, sides] of [
      ['flat', 1],
      ['round', 2],
      ['ball', 3],
    ] as const) {
      expectNear(firstRoot(shape, biot).zeta ** 2, sides * biot, 1e-5);
      expectWithin(firstRoot(shape, biot).c1, 1, 1e-5);
    }
  });

  test('a Biot number below 0 is refused', () => {
    expect(() => firstRoot('flat', -1)).toThrow(/^biot must be/);
    expect(() => firstRoot('flat', Number.NaN)).toThrow(/^biot must be/);
    expect(() => centreRatio('flat', 1, -1)).toThrow(/^fourier must be/);
  });
});

test('a steel wall in hot oil warms as in Incropera 6e, example 5.4', () => {
  // A12. Published: outer face 42.9 °C, inner flux -7360 W/m2; with exact roots 43.02 and -7318.
  const biot = (500 * 0.04) / 63.9;
  const fourier = (18.8e-6 * 480) / 0.04 ** 2;
  const faceK = -80 * centreRatio('flat', biot, fourier);
  expectWithin(60 + faceK, 42.9, 0.2);
  expectWithin(60 + faceK, 43.02, 0.01);
  const flux = 500 * faceK * Math.cos(firstRoot('flat', biot).zeta);
  expectNear(flux, -7360, 0.01);
});

describe('the set time', () => {
  test('of a moulded sprue agrees with the Imperial College worked problem', () => {
    // A13. Imperial College ME4 Polymer Processing, Problem 5.1: 24.6 s by a rounded law, as published.
    const sprue: SetCourse = {
      shape: 'round',
      thicknessMm: 5.59,
      diffusivityMm2PerSec: 0.1,
      pourC: 240,
      openC: 105,
      wallC: 60,
    };
    expectNear(seconds(sprue), 24.6, 0.03);
    expectWithin(seconds(sprue), 25.09, 0.01);
  });

  test('of a 10 mm bait cools its middle to what the series says', () => {
    // A14. Derived with scipy: 124.489 s, where four terms of the series leave 0.16 of 125 K.
    const sec = seconds(bait);
    expectWithin(sec, 124.489, 0.01);
    const fourier = (0.08 * sec) / 25;
    const left = J0_ROOTS.reduce(
      (sum, [root, j1]) => sum + (2 / (root * j1)) * Math.exp(-(root ** 2) * fourier),
      0,
    );
    expectWithin(left, 0.16, 2e-5);
  });

  test('of a 6 mm plate cools its middle to what the series says', () => {
    // A15. Derived with scipy: 94.570 s, checked by 200 terms of the series.
    const sec = seconds({ ...bait, shape: 'flat', thicknessMm: 6 });
    expectWithin(sec, 94.57, 0.01);
    let left = 0;
    for (let n = 0; n < 200; n++) {
      const root = (n + 0.5) * Math.PI;
      left += ((2 * (-1) ** n) / root) * Math.exp((-(root ** 2) * 0.08 * sec) / 9);
    }
    expectWithin(left, 0.16, 1e-6);
  });

  // Table of methods section 2, derived with scipy, whole seconds: moulds of 20, 30, 40 and 50 °C.
  test.each([
    [6, [34, 38, 45, 57]],
    [8, [61, 68, 80, 101]],
    [12, [137, 154, 179, 227]],
    [15, [214, 240, 280, 354]],
  ])('of a %d mm bait follows the table from a cold to a hot mould', (thicknessMm, row) => {
    const found = [20, 30, 40, 50].map((wallC) => seconds({ ...bait, thicknessMm, wallC }));
    for (const [i, sec] of found.entries()) expectWithin(sec, row[i] ?? 0, 0.6);
  });

  test('of a thin tail at its no-flow temperature is a few seconds', () => {
    // Methods section 2, derived; 100 °C as no-flow is from memory.
    const tail: SetCourse = { ...bait, shape: 'flat', thicknessMm: 2, openC: 100 };
    expectWithin(seconds({ ...tail, wallC: 20 }), 4.2, 0.05);
    expectWithin(seconds({ ...tail, wallC: 60 }), 6.1, 0.05);
  });

  test('is shorter on the average of the section than in its middle', () => {
    // Methods section 2: 8/pi^2 for 4/pi, 0.6917 for 1.602; derived by hand from both forms.
    const shorter = (Math.log(1.602 / 0.6917) * 25) / (5.7832 * 0.08);
    expectWithin(seconds(bait) - seconds({ ...bait, at: 'mean' }), shorter, 0.02);
    const flatShorter = (Math.log(Math.PI / 2) * 100) / (Math.PI ** 2 * 0.08);
    const flat: SetCourse = { ...bait, shape: 'flat' };
    expectWithin(seconds(flat) - seconds({ ...flat, at: 'mean' }), flatShorter, 1e-6);
  });

  test('never comes in a mould as hot as the part may be', () => {
    // A16. Logic.
    expect(setTimeSec({ ...bait, openC: 40, wallC: 45 })).toBe('never');
    expect(setTimeSec({ ...bait, openC: 40, wallC: 40 })).toBe('never');
  });

  test('is 0 for a part that is cool enough when poured', () => {
    expect(setTimeSec({ ...bait, pourC: 60 })).toBe(0);
    expect(setTimeSec({ ...bait, pourC: 30 })).toBe(0);
    expect(setTimeSec({ ...bait, pourC: 61, at: 'mean' })).toBe(0);
  });

  test('grows with the wall temperature', () => {
    const wall = fc.double({ min: -20, max: 59.9, noNaN: true });
    fc.assert(
      fc.property(wall, wall, fc.constantFrom('flat', 'round'), (a, b, shape) => {
        const cold = seconds({ ...bait, shape, wallC: Math.min(a, b) });
        const hot = seconds({ ...bait, shape, wallC: Math.max(a, b) });
        expect(hot).toBeGreaterThanOrEqual(cold - 1e-9);
      }),
    );
  });

  test('is four times as long for twice the thickness', () => {
    expectNear(seconds({ ...bait, thicknessMm: 20 }), 4 * seconds(bait), 1e-9);
  });

  test('of no thickness, no diffusivity or no temperature is refused by name', () => {
    expect(() => setTimeSec({ ...bait, thicknessMm: 0 })).toThrow(/^thicknessMm must be/);
    expect(() => setTimeSec({ ...bait, diffusivityMm2PerSec: 0 })).toThrow(/^diffusivityMm2PerSec/);
    expect(() => setTimeSec({ ...bait, wallC: Number.NaN })).toThrow(/^wallC must be/);
  });
});

describe('the uptake', () => {
  const given = (setSec: number) => uptakeShare({ shape: 'round', thicknessMm: 10, setSec });

  test('of a 10 mm bait is the table value of one term, less what the second term keeps', () => {
    // A52. Derived: one term 0.77214, 0.92494, 0.97527; the second term counts only at 60 s.
    const second = (4 / 5.5200781103 ** 2) * Math.exp(-(5.5200781103 ** 2) * 0.192);
    expectWithin(given(60), 0.77214 - second, 1e-5);
    expectWithin(given(120), 0.92494, 1e-4);
    expectWithin(given(180), 0.97527, 1e-4);
  });

  test('agrees with its first term once the Fourier number is above 0.2', () => {
    // Coefficients as printed: 0.6917 and 5.783 round, 0.8106 and pi^2/4 flat (methods section 2).
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 5, noNaN: true }), (fourier) => {
        const setSec = (fourier * 25) / 0.08;
        expectWithin(given(setSec), 1 - 0.6917 * Math.exp(-5.783 * fourier), 5e-4);
        const flat = uptakeShare({ shape: 'flat', thicknessMm: 10, setSec });
        expectWithin(flat, 1 - 0.8106 * Math.exp((-(Math.PI ** 2) / 4) * fourier), 1.2e-3);
      }),
    );
  });

  test('early on is the sum of many terms', () => {
    // Roots as above: four terms hold to 1e-6 at a Fourier number of 0.05, the first alone says 0.482, not 0.452.
    const kept = J0_ROOTS.reduce(
      (sum, [root]) => sum + (4 / root ** 2) * Math.exp(-(root ** 2) * 0.05),
      0,
    );
    expectWithin(given((0.05 * 25) / 0.08), 1 - kept, 1e-6);
  });

  test('starts at nothing and grows with the root of time', () => {
    // Half-space conduction: 2 sqrt(Fo/pi) of a plate, Incropera 6e eq. 5.58, from memory.
    expect(given(0)).toBe(0);
    expect(uptakeShare({ shape: 'flat', thicknessMm: 10, setSec: 0 })).toBe(0);
    const soon = uptakeShare({ shape: 'flat', thicknessMm: 10, setSec: 3 });
    expectNear(soon, 2 * Math.sqrt((0.08 * 3) / 25 / Math.PI), 1e-6);
  });

  test('has no step where the short-time form hands over', () => {
    const handover = (1e-4 * 25) / 0.08;
    for (const shape of ['flat', 'round'] as const) {
      const at = (setSec: number) => uptakeShare({ shape, thicknessMm: 10, setSec });
      expectWithin(at(handover * (1 + 1e-9)), at(handover * (1 - 1e-9)), 1e-7);
    }
  });

  test('stays between 0 and 1 and never shrinks', () => {
    const time = fc.double({ min: 0, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(time, time, fc.constantFrom('flat', 'round'), (a, b, shape) => {
        const early = uptakeShare({ shape, thicknessMm: 8, setSec: Math.min(a, b) });
        const late = uptakeShare({ shape, thicknessMm: 8, setSec: Math.max(a, b) });
        expect(early).toBeGreaterThanOrEqual(0);
        expect(late).toBeLessThanOrEqual(1);
        expect(late).toBeGreaterThanOrEqual(early - 1e-9);
      }),
    );
  });

  test('of no thickness or before the pour is refused by name', () => {
    const section = { shape: 'flat', thicknessMm: 10, setSec: 60 } as const;
    expect(() => uptakeShare({ ...section, thicknessMm: 0 })).toThrow(/^thicknessMm/);
    expect(() => uptakeShare({ ...section, setSec: -1 })).toThrow(/^setSec/);
  });
});

describe('the skin of hot plastisol', () => {
  const hot = { tempC: 165, k: 0.15, rho: 1050, cp: 1800 };

  // A17. Derived with the defaults of methods section 1; silicone and plaster values from memory.
  test.each([
    ['aluminium', { k: 167, rho: 2700, cp: 896 }, 23.742],
    ['silicone', { k: 0.2, rho: 1100, cp: 1300 }, 92.341],
    ['plaster', { k: 0.5, rho: 1200, cp: 1085 }, 77.646],
  ])('on cold %s drops to the contact temperature', (_name, mould, expected) => {
    expectWithin(contactC(hot, { tempC: 20, ...mould }), expected, 0.01);
  });

  test('meets its own kind half-way', () => {
    expectWithin(contactC(hot, { ...hot, tempC: 25 }), 95, 1e-9);
  });

  test('needs real stuff on both sides', () => {
    expect(() => contactC(hot, { ...hot, rho: 0 })).toThrow(/^cold\.rho must be/);
    expect(() => contactC({ ...hot, tempC: Number.NaN }, hot)).toThrow(/^hot\.tempC must be/);
  });
});
