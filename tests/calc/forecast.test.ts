import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { deltaE2000, linearFromRgb255, rgb255FromLab } from '#calc/colour.ts';
import {
  type Body,
  blendedOptics,
  colourantFromSwatch,
  flakeCover,
  forecastDoubt,
  forecastLab,
  hiddenShare,
  meetingLineLab,
  mixOptics,
  type Optics,
  opticsLab,
  opticsLinear,
  purgeFlushes,
  seenDepthMm,
  withFlake,
} from '#calc/colour-forecast.ts';
import { attenuationPerMm } from '#calc/flake.ts';
import { layerOver } from '#calc/layer.ts';
import { clearOptics } from '#calc/optics.ts';
import { expectWithin } from '../hands/within.ts';

const body: Body = { thicknessMm: 10, backing: 0.85 };
const flat = (absorb: number, scatterPerMm: number): Optics => ({
  absorbPerMm: new Array<number>(16).fill(absorb),
  scatterPerMm,
});

const optics = fc.record({
  absorbPerMm: fc.array(fc.double({ min: 0, max: 0.1, noNaN: true }), {
    minLength: 16,
    maxLength: 16,
  }),
  scatterPerMm: fc.double({ min: 0, max: 0.1, noNaN: true }),
});
const doses = fc.array(
  fc.record({
    colourant: optics,
    dosePerCup: fc.double({ min: 0, max: 20, noNaN: true }),
    strength: fc.double({ min: 0.2, max: 4, noNaN: true }),
  }),
  { maxLength: 4 },
);
const bodies = fc.record({
  thicknessMm: fc.double({ min: 0, max: 30, noNaN: true }),
  backing: fc.double({ min: 0, max: 1, noNaN: true }),
});

function expectSame(one: readonly number[], other: readonly number[], tolerance: number) {
  expect(one).toHaveLength(other.length);
  for (const [at, value] of other.entries()) {
    expectWithin(one[at] ?? Number.NaN, value, tolerance);
  }
}

describe('a forecast', () => {
  test('is always light that a screen can show', () => {
    fc.assert(
      fc.property(optics, doses, bodies, (base, mixed, lying) => {
        for (const channel of opticsLinear(mixOptics(base, mixed), lying)) {
          expect(channel).toBeGreaterThanOrEqual(0);
          expect(channel).toBeLessThanOrEqual(1);
        }
        expect(
          forecastLab({ base, doses: mixed, body: lying }).every((part) => Number.isFinite(part)),
        ).toBe(true);
      }),
    );
  });

  test('does not mind the order of the colourants', () => {
    fc.assert(
      fc.property(optics, doses, (base, mixed) => {
        const one = forecastLab({ base, doses: mixed, body });
        expectSame(forecastLab({ base, doses: mixed.toReversed(), body }), one, 1e-9);
      }),
    );
  });

  test('scaled twice is scaled once, and strength is as good as dose', () => {
    fc.assert(
      fc.property(optics, fc.double({ min: 0.1, max: 3, noNaN: true }), (colourant, times) => {
        const twice = [{ colourant, dosePerCup: 2 * times, strength: 3 }];
        const once = [{ colourant, dosePerCup: 6 * times }];
        expectSame(
          mixOptics(clearOptics, twice).absorbPerMm,
          mixOptics(clearOptics, once).absorbPerMm,
          1e-12,
        );
        const split = [...once, ...once].map((dose) => ({ ...dose, dosePerCup: 3 * times }));
        expectSame(
          mixOptics(clearOptics, split).absorbPerMm,
          mixOptics(clearOptics, once).absorbPerMm,
          1e-12,
        );
      }),
    );
  });

  test('of bare clear plastic is the paper under it', () => {
    // A bait that neither absorbs nor scatters shows its backing.
    expectSame(opticsLinear(clearOptics, body), [0.85, 0.85, 0.85], 1e-6);
  });

  test('is deeper over a deeper bait', () => {
    // Bouguer and Lambert: more depth, less light left.
    const dye = flat(0.05, 0.002);
    const [thin] = opticsLab(dye, { thicknessMm: 5, backing: 0.85 });
    const [thick] = opticsLab(dye, { thicknessMm: 15, backing: 0.85 });
    expect(thick).toBeLessThan(thin - 10);
  });
});

describe('a swatch', () => {
  const shades = fc.integer({ min: 30, max: 225 });

  test('forecast at its own dose is itself', () => {
    fc.assert(
      fc.property(
        fc.tuple(shades, shades, shades),
        fc.constantFrom('see-through', 'cloudy', 'solid'),
        fc.double({ min: 1, max: 20, noNaN: true }),
        (rgb, hides, dosePerCup) => {
          const overWhite = linearFromRgb255(rgb);
          const photo = { overWhite, hides, dosePerCup, thicknessMm: 10 } as const;
          const colourant = colourantFromSwatch(photo);
          for (const absorb of colourant.absorbPerMm) expect(absorb).toBeGreaterThanOrEqual(0);
          const seen = opticsLinear(mixOptics(clearOptics, [{ colourant, dosePerCup }]), body);
          // A see-through bait cannot be brighter than clear plastic of its scatter over the paper.
          const scatterPerMm = colourant.scatterPerMm * dosePerCup;
          const limit = layerOver({ absorbPerMm: 0, scatterPerMm, ...body });
          const isPossible = overWhite.every((channel) => channel < limit - 0.02);
          if (isPossible) expectSame(seen, overWhite, 2e-5);
          else expect(Math.max(...seen)).toBeLessThanOrEqual(limit + 1e-4);
        },
      ),
    );
  });

  test('with both halves gives back the scatter it was made with', () => {
    const truth = flat(0.002, 0.01);
    const bait = mixOptics(clearOptics, [{ colourant: truth, dosePerCup: 8 }]);
    const found = colourantFromSwatch({
      overWhite: opticsLinear(bait, body),
      overBlack: opticsLinear(bait, { thicknessMm: 10, backing: 0.04 }),
      dosePerCup: 8,
      thicknessMm: 10,
    });
    expectWithin(found.scatterPerMm, 0.01, 1e-4);
    for (const absorb of found.absorbPerMm) expectWithin(absorb, 0.002, 1e-4);
  });

  test('takes off what the base does, never below nothing', () => {
    const photo = { overWhite: [0.6, 0.6, 0.6], hides: 'cloudy', dosePerCup: 4 } as const;
    const bare = colourantFromSwatch({ ...photo, thicknessMm: 10 });
    const onMurk = colourantFromSwatch({ ...photo, thicknessMm: 10, base: flat(5, 5) });
    expect(bare.scatterPerMm).toBeCloseTo(0.025, 12);
    expect(onMurk).toEqual(flat(0, 0));
  });

  test('with a patch as bright as gloss is read as white', () => {
    const bright = { hides: 'solid', dosePerCup: 4, thicknessMm: 10 } as const;
    expect(colourantFromSwatch({ ...bright, overWhite: [1.2, 1.2, 1.2] })).toEqual(
      colourantFromSwatch({ ...bright, overWhite: [1, 1, 1] }),
    );
  });
});

describe('a meeting line', () => {
  test('runs from side A to side B', () => {
    fc.assert(
      fc.property(optics, optics, (a, b) => {
        expectSame(meetingLineLab(a, b, 0, body), opticsLab(a, body), 1e-9);
        expectSame(meetingLineLab(a, b, 1, body), opticsLab(b, body), 1e-9);
        expectSame(
          blendedOptics(a, b, 0.25).absorbPerMm,
          blendedOptics(b, a, 0.75).absorbPerMm,
          1e-12,
        );
      }),
    );
  });
});

describe('hiding and flake', () => {
  test('clear hides by the ratio of its backings, a thick white all', () => {
    expectWithin(hiddenShare(clearOptics, { thicknessMm: 10 }), 0.04 / 0.85, 1e-6);
    expectWithin(hiddenShare(flat(0.01, 50), { thicknessMm: 100 }), 1, 1e-6);
    expect(hiddenShare(flat(1e6, 0), { thicknessMm: 1000 })).toBe(1);
  });

  test('cover follows chance: twice the flake leaves the square of what was bare', () => {
    // Poisson: bare = exp(-pieces per mm3 x facing area x depth).
    const field = { piecesPerMl: 300, areaMm2: 0.7, seenDepthMm: 6 };
    const bare = 1 - flakeCover(field);
    expectWithin(1 - flakeCover({ ...field, piecesPerMl: 600 }), bare ** 2, 1e-12);
    expect(flakeCover({ ...field, piecesPerMl: 1e308, areaMm2: 1e308 })).toBe(1);
    expect(flakeCover({ ...field, piecesPerMl: 0 })).toBe(0);
    expect(flakeCover({ ...field, facing: 1 })).toBeGreaterThan(flakeCover(field));
  });

  test('seen depth is the whole of a clear bait and half a length of a dense one', () => {
    // Integral of exp(-2 mu z): 1/(2 mu) when nothing of the bottom is seen.
    expect(seenDepthMm(0, 12)).toBe(12);
    expectWithin(seenDepthMm(10, 1000), 0.05, 1e-12);
    expectWithin(seenDepthMm(1e-13, 10), 10, 1e-9);
    expectWithin(attenuationPerMm(flat(0.1, 0)), 0.1, 1e-6);
    expectWithin(attenuationPerMm(flat(0.1, 0.15)), 0.2, 1e-6);
  });

  test('flake lies between body and itself', () => {
    expect(withFlake([0.1, 0.2, 0.3], [0.9, 0.8, 0.7], 0)).toEqual([0.1, 0.2, 0.3]);
    expect(withFlake([0.1, 0.2, 0.3], [0.9, 0.8, 0.7], 1)).toEqual([0.9, 0.8, 0.7]);
  });
});

describe('flushes', () => {
  test('none from a colour to itself, and never more than asked for', () => {
    const black = flat(0.3, 0.004);
    const clear = flat(0.001, 0.004);
    expect(purgeFlushes({ from: black, to: black, body })).toBe(0);
    expect(purgeFlushes({ from: black, to: clear, body, most: 2 })).toBe(2);
    const all = purgeFlushes({ from: black, to: clear, body, most: 20 });
    const isSeenAfter = (flushes: number) =>
      deltaE2000(
        opticsLab(clear, body),
        opticsLab(blendedOptics(clear, black, 0.35 ** flushes), body),
      ) >= 2;
    expect(isSeenAfter(all - 1)).toBe(true);
    expect(isSeenAfter(all)).toBe(false);
  });
});

describe('doubt', () => {
  test('is the measured one at first, and the own one in the end', () => {
    expect(forecastDoubt({ errors: [], allOnCard: false }).word).toBe('no guess');
    const own = forecastDoubt({ errors: new Array<number>(10_000).fill(2), allOnCard: true });
    expectWithin(own.typicalDeltaE, 2, 0.02);
    expect(own.word).toBe('close');
  });

  test('words change at 3, 6 and 12', () => {
    // With 4 own errors e, typical^2 = (4 x 64 + 4 e^2) / 8, so e = sqrt(2 t^2 - 64).
    const at = (typical: number) =>
      forecastDoubt({
        errors: new Array<number>(4).fill(Math.sqrt(2 * typical ** 2 - 64)),
        allOnCard: true,
      }).word;
    expect(at(5.99)).toBe('near');
    expect(at(6.01)).toBe('rough');
    expect(at(11.99)).toBe('rough');
    expect(at(12.01)).toBe('no guess');
  });
});

describe('the colour families a person expects', () => {
  test('yellow and blue dye make green, red and yellow make orange', () => {
    // Common practice, no source: see-through dyes mix like filters.
    const dye = (rgb: [number, number, number]) =>
      colourantFromSwatch({
        overWhite: linearFromRgb255(rgb),
        hides: 'see-through',
        dosePerCup: 5,
        thicknessMm: 10,
      });
    const mixed = (...colourants: Optics[]) =>
      rgb255FromLab(
        forecastLab({
          base: clearOptics,
          doses: colourants.map((colourant) => ({ colourant, dosePerCup: 2.5 })),
          body,
        }),
      );
    const yellow = dye([225, 205, 40]);
    const [greenR, greenG, greenB] = mixed(yellow, dye([40, 90, 190]));
    expect(greenG).toBeGreaterThan(Math.max(greenR, greenB) + 15);
    const [orangeR, orangeG, orangeB] = mixed(yellow, dye([200, 30, 40]));
    expect(orangeR).toBeGreaterThan(orangeG + 30);
    expect(orangeG).toBeGreaterThan(orangeB);
  });
});

describe('what cannot be is refused', () => {
  const photo = { overWhite: [0.5, 0.5, 0.5], dosePerCup: 5, thicknessMm: 10 } as const;
  test.each([
    ['a negative dose', () => mixOptics(clearOptics, [{ colourant: flat(1, 1), dosePerCup: -1 }])],
    [
      'a NaN dose',
      () => mixOptics(flat(0, 0), [{ colourant: flat(1, 1), dosePerCup: Number.NaN }]),
    ],
    [
      'no strength',
      () => mixOptics(clearOptics, [{ colourant: flat(1, 1), dosePerCup: 1, strength: 0 }]),
    ],
    ['a base of three bands', () => mixOptics({ absorbPerMm: [0, 0, 0], scatterPerMm: 0 }, [])],
    ['a negative K', () => opticsLab(flat(-1, 0), body)],
    ['a NaN S', () => opticsLab(flat(0, Number.NaN), body)],
    ['a share of B above 1', () => blendedOptics(clearOptics, clearOptics, 1.5)],
    ['a swatch without a word or black half', () => colourantFromSwatch(photo)],
    ['a swatch of no dose', () => colourantFromSwatch({ ...photo, hides: 'solid', dosePerCup: 0 })],
    [
      'a swatch of no depth',
      () => colourantFromSwatch({ ...photo, hides: 'solid', thicknessMm: 0 }),
    ],
    [
      'a swatch darker than black',
      () => colourantFromSwatch({ ...photo, hides: 'solid', overWhite: [-0.1, 0, 0] }),
    ],
    [
      'a swatch brighter than gloss',
      () => colourantFromSwatch({ ...photo, hides: 'solid', overWhite: [3, 0, 0] }),
    ],
    ['a white of nothing', () => hiddenShare(clearOptics, { thicknessMm: 10, white: 0 })],
    ['a negative error', () => forecastDoubt({ errors: [-1], allOnCard: true })],
    ['a NaN error', () => forecastDoubt({ errors: [Number.NaN], allOnCard: true })],
    ['a cover above 1', () => withFlake([0, 0, 0], [1, 1, 1], 1.1)],
    ['negative flake', () => flakeCover({ piecesPerMl: -1, areaMm2: 1, seenDepthMm: 1 })],
    ['a NaN depth', () => seenDepthMm(0.1, Number.NaN)],
    [
      'a flush that leaves all',
      () => purgeFlushes({ from: clearOptics, to: clearOptics, body, leftShare: 1 }),
    ],
  ])('%s', (_, run) => {
    expect(run).toThrow(RangeError);
  });
});
