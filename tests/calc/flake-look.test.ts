import { describe, expect, test } from 'vitest';
import { labFromRgb255 } from '#calc/colour.ts';
import { flakeLook } from '#calc/flake-look.ts';
import type { Optics } from '#calc/optics.ts';
import { toMl } from '#calc/units.ts';
import { expectWithin } from '../hands/within.ts';

// methods-colour-plan 1.3 and row F19: 1 tsp (3 g) of .035 in (0.889 mm) hex of 50 um film in one cup
// covers 0.441 where the eye reaches 6.321 mm deep: kappa 0.05 over 10 mm (row F18).
const kappa = 0.05;
const optics: Optics = { absorbPerMm: new Array<number>(16).fill(kappa), scatterPerMm: 0 };
const bait = { optics, thicknessMm: 10, baseMl: toMl(1, 'cup') };
const flake = { acrossMm: 0.889, cut: 'hex' } as const;
const black = { flake, teaspoonG: null, swatch: '#000000' };
const spoon = { amount: 1, unit: 'tsp' } as const;
const white = labFromRgb255([255, 255, 255]);

describe('flake in a bait', () => {
  test('covers what the method says', () => {
    const { cover, hidesBody, isPartial } = flakeLook(
      white,
      [{ dose: spoon, material: black }],
      bait,
    );
    expectWithin(cover, 0.440658, 0.002);
    expect([hidesBody, isPartial]).toEqual([false, false]);
  });

  test('in grams, mL and spoons is the same flake', () => {
    const covers = [
      spoon,
      { amount: 3, unit: 'g' },
      { amount: toMl(1, 'tsp'), unit: 'mL' },
    ] as const;
    const found = covers.map((dose) => flakeLook(white, [{ dose, material: black }], bait).cover);
    for (const cover of found) expectWithin(cover, found[0] ?? Number.NaN, 1e-12);
  });

  test('of its own colour changes nothing, of black it darkens by its cover', () => {
    const grey = labFromRgb255([128, 128, 128]);
    const same = { dose: spoon, material: { ...black, swatch: '#808080' } };
    for (const [at, value] of flakeLook(grey, [same], bait).lab.entries()) {
      expectWithin(value, grey[at] ?? Number.NaN, 1e-9);
    }
    const { lab, cover } = flakeLook(white, [{ dose: spoon, material: black }], bait);
    // CIE 15: L* = 116 Y^(1/3) - 16, and white less its cover is Y = 1 - cover.
    expectWithin(lab[0], 116 * Math.cbrt(1 - cover) - 16, 1e-6);
  });

  test('of two kinds covers together less than the sum', () => {
    const one = { dose: spoon, material: black };
    const both = flakeLook(white, [one, one], bait);
    const { cover } = flakeLook(white, [one], bait);
    expectWithin(both.cover, 1 - (1 - cover) ** 2, 1e-12);
  });

  test('so much of it that it hides the bait is shown alone', () => {
    const much = { dose: { amount: 3, unit: 'tsp' } as const, material: black };
    const { lab, hidesBody } = flakeLook(white, [much], bait);
    expect(hidesBody).toBe(true);
    expectWithin(lab[0], 0, 1e-9);
  });

  test.each([
    ['size', { ...black, flake: null }, spoon],
    ['look', { ...black, swatch: null }, spoon],
    ['weight', black, { amount: 3, unit: 'drop' } as const],
  ])('whose %s is not known is left out and said to be', (_, material, dose) => {
    const look = flakeLook(white, [{ dose, material }], bait);
    expect(look).toEqual({ lab: white, cover: 0, hidesBody: false, isPartial: true });
  });
});
