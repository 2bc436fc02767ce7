import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  blend,
  degradationRate,
  equivalentMin,
  heatOnce,
  type PotHeat,
  remeltMeanHeats,
} from '#calc/pot.ts';
import { expectNear, expectWithin } from '../hands/within.ts';

/*
 * Row A36 of the check table (ageing doubles every 10 K, as shelf-life tests take it) touches no
 * function of the product, which knows the Arrhenius form only; that form is checked by A37.
 */

describe('the rate of ageing', () => {
  // A33 and methods section 4. Derived; 150 kJ/mol: Krongauz, Lee, Bourassa (abstract read).
  test.each([
    [150, 0.2323],
    [160, 0.6217],
    [165, 1],
    [170, 1.5913],
    [177, 2.9971],
    [180, 3.90775],
    [190, 9.2309],
    [200, 21.03],
  ])('at %d °C is %d of that at 165 °C', (tempC, rate) => {
    expectNear(degradationRate(tempC), rate, 3e-4);
  });

  test('doubles with 7.5 K above 165 °C', () => {
    // A34. Derived.
    expectWithin(degradationRate(165 + 7.5022), 2, 1e-3);
  });

  test('with 110 kJ/mol is 2.717 at 180 °C', () => {
    // Methods section 4, derived; the lower end of the range is from memory.
    expectWithin(degradationRate(180, { activationKJPerMol: 110 }), 2.717, 1e-3);
  });

  test('agrees with the published activation energy of two rate constants', () => {
    // A37. Stored worked solution: 3.0e-5 at 298 K and 4.3e-3 at 338 K give 103.9 kJ/mol (exact 103.95).
    const options = { activationKJPerMol: 103.9, referenceC: 298 - 273.15 };
    const ratio = degradationRate(338 - 273.15, options);
    expectNear(ratio, 4.3e-3 / 3.0e-5, 5e-3);
  });

  test('refuses a temperature that cannot be', () => {
    expect(() => degradationRate(-273.15)).toThrow(/^tempC must be above absolute zero/);
    expect(() => degradationRate(Number.NaN)).toThrow(/^tempC must be/);
    expect(() => degradationRate(165, { activationKJPerMol: 0 })).toThrow(/^activationKJPerMol/);
  });
});

describe('equivalent minutes', () => {
  test('of the worked pot are 19.85 in 20 minutes', () => {
    // A35. Derived with scipy, checked by a dense midpoint sum.
    const readings = [
      [0, 20],
      [6, 170],
      [10, 170],
      [13, 150],
      [18, 176],
      [20, 176],
    ].map(([atMin = 0, tempC = 0]) => ({ atMin, tempC }));
    expectNear(equivalentMin(readings), 19.8548, 1e-4);
    expectNear(equivalentMin(readings.slice(0, 2)), 0.66114, 1e-4);
    expectNear(equivalentMin(readings.toReversed()), 19.8548, 1e-4);
  });

  test('do not depend on whether the ramp was read once or every minute', () => {
    // Methods section 4: one-minute trapezoids would give 0.9446 for 0.66114.
    const ramp = [0, 1, 2, 3, 4, 5, 6].map((atMin) => ({ atMin, tempC: 20 + 25 * atMin }));
    expectNear(equivalentMin(ramp), 0.66114, 1e-4);
  });

  test('at the reference temperature are minutes', () => {
    const held = [0, 12].map((atMin) => ({ atMin, tempC: 165 }));
    expectWithin(equivalentMin(held), 12, 1e-9);
    const elsewhere = [0, 12].map((atMin) => ({ atMin, tempC: 180 }));
    expectWithin(equivalentMin(elsewhere, { referenceC: 180 }), 12, 1e-9);
  });

  test('of a pot that was looked at once or never are none', () => {
    expect(equivalentMin([])).toBe(0);
    expect(equivalentMin([{ atMin: 3, tempC: 170 }])).toBe(0);
    expect(equivalentMin([0, 1].map(() => ({ atMin: 3, tempC: 170 })))).toBe(0);
  });

  test('lie between those of the coldest and those of the hottest reading held throughout', () => {
    const look = fc.record({
      atMin: fc.double({ min: 0, max: 600, noNaN: true }),
      tempC: fc.double({ min: 0, max: 220, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(look, { minLength: 2, maxLength: 10 }), (readings) => {
        const times = readings.map((reading) => reading.atMin);
        const temps = readings.map((reading) => reading.tempC);
        const spanMin = Math.max(...times) - Math.min(...times);
        const found = equivalentMin(readings);
        const coldest = spanMin * degradationRate(Math.min(...temps));
        const hottest = spanMin * degradationRate(Math.max(...temps));
        expect(found).toBeGreaterThanOrEqual(coldest * (1 - 1e-9) - 1e-12);
        expect(found).toBeLessThanOrEqual(hottest * (1 + 1e-9) + 1e-12);
      }),
    );
  });

  test('refuse a reading that is no number', () => {
    expect(() => equivalentMin([{ atMin: Number.NaN, tempC: 20 }])).toThrow(/^atMin must be/);
    expect(() => equivalentMin([{ atMin: 0, tempC: Number.NaN }])).toThrow(/^tempC must be/);
  });
});

describe('pots poured together', () => {
  const virgin = { massG: 300, doseMin: 0, meanHeats: 0, maxHeats: 0 };
  const once = { massG: 100, doseMin: 9.5, meanHeats: 1, maxHeats: 1 };
  const often = { massG: 50, doseMin: 31, meanHeats: 3, maxHeats: 4 };

  test('mix dose and mean by mass and keep the most heated', () => {
    // A38. Derived by hand: (950 + 1550) / 450, (100 + 150) / 450.
    const pot = blend([virgin, once, often]);
    expect(pot.massG).toBe(450);
    expectWithin(pot.doseMin, 5.55556, 1e-5);
    expectWithin(pot.meanHeats, 0.55556, 1e-5);
    expect(pot.maxHeats).toBe(4);
    const hot = heatOnce(pot, 7.2);
    expectWithin(hot.doseMin, 12.75556, 1e-5);
    expectWithin(hot.meanHeats, 1.55556, 1e-5);
    expect(hot.maxHeats).toBe(5);
    expect(hot.massG).toBe(450);
  });

  test('of no mass are an empty pot, and a drop of nothing changes nothing', () => {
    const empty = { massG: 0, doseMin: 0, meanHeats: 0, maxHeats: 0 };
    expect(blend([])).toEqual(empty);
    expect(blend([{ ...often, massG: 0 }])).toEqual(empty);
    expect(blend([once, { ...often, massG: 0 }])).toEqual(once);
  });

  const pot = fc.record({
    massG: fc.double({ min: 0.1, max: 5000, noNaN: true }),
    doseMin: fc.double({ min: 0, max: 500, noNaN: true }),
    meanHeats: fc.double({ min: 0, max: 20, noNaN: true }),
    maxHeats: fc.integer({ min: 0, max: 30 }),
  });
  const expectSame = (a: PotHeat, b: PotHeat) => {
    expectWithin(a.massG, b.massG, 1e-6);
    expectWithin(a.doseMin, b.doseMin, 1e-6);
    expectWithin(a.meanHeats, b.meanHeats, 1e-6);
    expect(a.maxHeats).toBe(b.maxHeats);
  };

  test('are the same whichever goes in first', () => {
    fc.assert(fc.property(pot, pot, (a, b) => expectSame(blend([a, b]), blend([b, a]))));
  });

  test('are the same whichever two were mixed beforehand', () => {
    fc.assert(
      fc.property(pot, pot, pot, (a, b, c) => {
        expectSame(blend([blend([a, b]), c]), blend([a, blend([b, c])]));
        expectSame(blend([blend([a, b]), c]), blend([a, b, c]));
      }),
    );
  });

  test('of less than no mass are refused', () => {
    expect(() => blend([{ ...once, massG: -1 }])).toThrow(/^massG must be/);
    expect(() => heatOnce(once, -1)).toThrow(/^doseMin must be/);
  });
});

describe('remelt in every batch', () => {
  test('of three tenths climbs to 1.43 heats on average', () => {
    // A39. Derived: the sum of a geometric row.
    const found = [1, 2, 3, 4, 5].map((batches) => remeltMeanHeats(0.3, batches));
    const expected = [1, 1.3, 1.39, 1.417, 1.4251];
    for (const [i, heats] of found.entries()) expectWithin(heats, expected[i] ?? 0, 1e-6);
    expectWithin(remeltMeanHeats(0.3, Number.POSITIVE_INFINITY), 1.428571, 1e-6);
  });

  test('of everything counts the batches, of nothing counts one', () => {
    expect(remeltMeanHeats(1, 7)).toBe(7);
    expect(remeltMeanHeats(0, 7)).toBe(1);
  });

  test('of more than everything or of half a batch is refused', () => {
    expect(() => remeltMeanHeats(1.1, 3)).toThrow(/^share must be/);
    expect(() => remeltMeanHeats(0.3, 2.5)).toThrow(/^batches must be/);
  });
});
