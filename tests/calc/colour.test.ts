import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  adaptedXyz,
  D50,
  D65,
  deltaE2000,
  isDisplayable,
  type Lab,
  labFromLinear,
  labFromRgb255,
  labFromXyz,
  linearFromRgb255,
  linearFromXyz,
  luminance,
  rgb255FromLab,
  rgb255FromLabD50,
  rgb255FromLinear,
  xyzFromLab,
  xyzFromLinear,
} from '#calc/colour.ts';
import { expectWithin } from '../hands/within.ts';

// The published values are in the table that colour-plan.test.ts runs; here is what must hold anywhere.
const channel = fc.integer({ min: 0, max: 255 });
const rgbs = fc.tuple(channel, channel, channel);
const labs = fc.tuple(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
);

function expectTriple(found: readonly number[], wanted: readonly number[], tolerance: number) {
  expect(found).toHaveLength(3);
  for (const [at, value] of wanted.entries()) {
    expectWithin(found[at] ?? Number.NaN, value, tolerance);
  }
}

describe('there and back', () => {
  test('every 8-bit colour comes back from Lab, from XYZ and from light', () => {
    fc.assert(
      fc.property(rgbs, (rgb) => {
        expectTriple(rgb255FromLab(labFromRgb255(rgb)), rgb, 1e-6);
        const linear = linearFromRgb255(rgb);
        expectTriple(rgb255FromLinear(linearFromXyz(xyzFromLinear(linear))), rgb, 1e-6);
        expect(isDisplayable(linearFromXyz(xyzFromLinear(linear)))).toBe(true);
      }),
    );
  });

  test('any Lab comes back from XYZ beside either white', () => {
    fc.assert(
      fc.property(labs, fc.constantFrom(D65, D50), (lab, white) => {
        expectTriple(labFromXyz(xyzFromLab(lab, white), white), lab, 1e-8);
      }),
    );
  });

  test('a change of white comes back, and takes white to white', () => {
    fc.assert(
      fc.property(labs, (lab) => {
        const xyz = xyzFromLab(lab, D50);
        expectTriple(adaptedXyz(adaptedXyz(xyz, D50, D65), D65, D50), xyz, 1e-12);
      }),
    );
    expectTriple(adaptedXyz(D50, D50, D65), D65, 1e-12);
  });
});

describe('greys', () => {
  test('have no chroma, on the screen and on a printed chart', () => {
    for (const grey of [0, 1, 10, 11, 118, 254, 255]) {
      const [, a, b] = labFromRgb255([grey, grey, grey]);
      expectWithin(Math.hypot(a, b), 0, 1e-9);
    }
    // CSS lab() and printed charts are D50: white there is white here.
    expectTriple(rgb255FromLabD50([100, 0, 0]), [255, 255, 255], 0.01);
  });

  test('luminance is that of the published matrix', () => {
    // IEC 61966-2-1 rounds to 0.2126, 0.7152, 0.0722.
    expectWithin(luminance([1, 0, 0]), 0.2126, 5e-5);
    expectWithin(luminance([0, 1, 0]), 0.7152, 5e-5);
    expectWithin(luminance([0, 0, 1]), 0.0722, 5e-5);
  });
});

describe('colour difference', () => {
  test('is a number, the same both ways, and nothing only for the same colour', () => {
    fc.assert(
      fc.property(labs, labs, (one, other) => {
        const difference = deltaE2000(one, other);
        expect(difference).toBeGreaterThanOrEqual(0);
        expectWithin(deltaE2000(other, one), difference, 1e-9);
        expect(deltaE2000(one, one)).toBe(0);
      }),
    );
  });
});

describe('light that no screen shows', () => {
  test('is clipped channel by channel and said so', () => {
    expectTriple(rgb255FromLinear([-0.4, 1.7, 0]), [0, 255, 0], 1e-9);
    expect(isDisplayable([0, 0, 1.01])).toBe(false);
    // A green far outside sRGB.
    for (const part of rgb255FromLab([60, -120, 60])) {
      expect(part).toBeGreaterThanOrEqual(0);
      expect(part).toBeLessThanOrEqual(255);
    }
  });
});

describe('what is no colour is refused', () => {
  const two = [1, 2] as unknown as Lab;
  test.each([
    ['a channel of 256', () => linearFromRgb255([0, 256, 0])],
    ['a channel below 0', () => labFromRgb255([-1, 0, 0])],
    ['NaN in a channel', () => labFromRgb255([Number.NaN, 0, 0])],
    ['two channels', () => linearFromRgb255(two)],
    ['endless light', () => rgb255FromLinear([Infinity, 0, 0])],
    ['NaN light', () => isDisplayable([0, Number.NaN, 0])],
    ['light beyond any lamp', () => labFromLinear([1e5, 0, 0])],
    ['NaN XYZ', () => labFromXyz([0, Number.NaN, 0])],
    ['a white of nothing', () => labFromXyz([0.1, 0.1, 0.1], [0, 1, 1])],
    ['a white of nothing behind Lab', () => xyzFromLab([50, 0, 0], [1, 0, 1])],
    ['a white of nothing to adapt from', () => adaptedXyz([0.1, 0.1, 0.1], [1, 1, 0], D65)],
    ['a Lab beyond any surface', () => deltaE2000([1e60, 0, 0], [0, 0, 0])],
    ['NaN in Lab', () => deltaE2000([50, 0, 0], [50, Number.NaN, 0])],
    ['two Lab values', () => rgb255FromLab(two)],
  ])('%s', (_, run) => {
    expect(run).toThrow(RangeError);
  });
});
