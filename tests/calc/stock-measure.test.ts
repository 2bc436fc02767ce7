import { describe, expect, test } from 'vitest';
import {
  doseG,
  dropMlFrom,
  dropMlOf,
  gPerMlOf,
  stockAmount,
  teaspoonGFrom,
  teaspoonGOf,
  weighedLevel,
} from '#calc/stock-measure.ts';
import { aStoredMaterial } from '../hands/stock.ts';
import { expectWithin } from '../hands/within.ts';

const liquid = aStoredMaterial();
const flake = aStoredMaterial({ kind: 'flake', unit: 'g' });
const salt = aStoredMaterial({ kind: 'salt', unit: 'g' });

describe('a dose in the unit of its stock', () => {
  /** A teaspoon is exactly 4.92892159375 mL: NIST Handbook 44, Appendix C (231 in3 to the gallon). */
  test('a teaspoon of a liquid is the teaspoon of NIST Handbook 44', () => {
    expectWithin(stockAmount({ amount: 1, unit: 'tsp' }, liquid), 4.92892159375, 1e-12);
    expectWithin(stockAmount({ amount: 0.125, unit: 'tsp' }, liquid), 0.61611519921875, 1e-12);
  });

  /** USP <1101>: an official dropper gives 45 to 55 mg of water a drop; 20 drops to 1 mL, +/- 10 %. */
  test('20 drops of a dropper nobody has counted are 1 mL, and 98.6 drops a teaspoon', () => {
    expectWithin(stockAmount({ amount: 20, unit: 'drop' }, liquid), 1, 1e-12);
    for (const mg of [45, 55])
      expectWithin(mg / 1_000, dropMlOf(liquid) * gPerMlOf(liquid), 0.0051);
    expectWithin(4.92892159375 / dropMlOf(liquid), 98.6, 0.05);
  });

  test("drops are of the person's own size once it is known", () => {
    const own = aStoredMaterial({ dropMl: 0.04 });
    expectWithin(stockAmount({ amount: 25, unit: 'drop' }, own), 1, 1e-12);
  });

  /** Flake of 2.5 to 4 g a level teaspoon (methods on heat, section 6, from memory): 3 g until weighed. */
  test('a teaspoon of flake is weighed, or 3 g', () => {
    expect(stockAmount({ amount: 1.5, unit: 'tsp' }, flake)).toBe(4.5);
    const own = aStoredMaterial({ kind: 'flake', unit: 'g', teaspoonG: 3.4 });
    expectWithin(stockAmount({ amount: 0.5, unit: 'tsp' }, own), 1.7, 1e-12);
    expect(stockAmount({ amount: 2.5, unit: 'g' }, own)).toBe(2.5);
    expect(teaspoonGOf(salt)).toBe(6);
  });

  /** 4 fl oz of plastisol at 1.05 weighs 124.2 g = 4.381 oz (worked example, methods on heat, section 5). */
  test('grams of a liquid are told by its density', () => {
    const plastisol = aStoredMaterial({ kind: 'plastisol' });
    expectWithin(stockAmount({ amount: 124.2, unit: 'g' }, plastisol), 4 * 29.5735295625, 0.02);
    const own = aStoredMaterial({ densityGPerMl: 1.25 });
    expectWithin(stockAmount({ amount: 5, unit: 'g' }, own), 4, 1e-12);
  });

  test('a measure of powder is told by its teaspoon, and pieces are pieces', () => {
    expectWithin(stockAmount({ amount: 4.92892159375, unit: 'mL' }, salt), 6, 1e-12);
    expectWithin(stockAmount({ amount: 98.578431875, unit: 'drop' }, salt), 6, 1e-9);
    const hooks = aStoredMaterial({ kind: 'hook', unit: 'piece' });
    expect(stockAmount({ amount: 8, unit: 'g' }, hooks)).toBe(8);
  });
});

describe('a measure of one’s own', () => {
  test('20 drops that fill 1 mL are drops of 0.05 mL; 50 drops of 2.4 g are 0.048 mL at 1 g/mL', () => {
    expectWithin(dropMlFrom({ drops: 20, mL: 1 }, liquid), 0.05, 1e-15);
    expectWithin(dropMlFrom({ drops: 50, g: 2.4 }, liquid), 0.048, 1e-15);
    const heavy = aStoredMaterial({ densityGPerMl: 1.2 });
    expectWithin(dropMlFrom({ drops: 50, g: 2.4 }, heavy), 0.04, 1e-15);
  });

  test('five level teaspoons of 16.5 g are 3.3 g each', () => {
    expectWithin(teaspoonGFrom({ teaspoons: 5, g: 16.5 }), 3.3, 1e-12);
  });

  test('a jar on the scale holds gross less tare, by its density', () => {
    const own = aStoredMaterial({ densityGPerMl: 1.05 });
    expectWithin(weighedLevel({ grossG: 2_150, tareG: 50 }, own), 2_000, 1e-9);
    expect(weighedLevel({ grossG: 250, tareG: 30 }, flake)).toBe(220);
    expect(weighedLevel({ grossG: 20, tareG: 30 }, flake)).toBe(-10);
  });

  test.each([
    ['no drops', () => dropMlFrom({ drops: 0, mL: 1 }, liquid)],
    ['a measure of nothing', () => dropMlFrom({ drops: 20, mL: 0 }, liquid)],
    ['a negative weight', () => teaspoonGFrom({ teaspoons: 5, g: -1 })],
    [
      'pieces on a scale',
      () => weighedLevel({ grossG: 5, tareG: 1 }, aStoredMaterial({ unit: 'piece' })),
    ],
  ])('%s cannot be', (_, make) => {
    expect(make).toThrow(RangeError);
  });
});

describe('what a dose weighs beside how it is measured', () => {
  test('12 drops of 0.048 mL at 1.25 g/mL are 0.72 g, and by the usual drop it is said to be about', () => {
    const own = aStoredMaterial({ dropMl: 0.048, densityGPerMl: 1.25 });
    const weighed = doseG({ amount: 12, unit: 'drop' }, own);
    expectWithin(weighed?.g ?? 0, 0.72, 1e-12);
    expect(weighed?.isMeasured).toBe(true);
    const usual = doseG({ amount: 12, unit: 'drop' }, aStoredMaterial({ dropMl: null }));
    expectWithin(usual?.g ?? 0, 0.6, 1e-12);
    expect(usual?.isMeasured).toBe(false);
  });

  test('a teaspoon of powder weighs what was weighed; grams and pieces need no other word', () => {
    const own = { ...flake, teaspoonG: 3.3 };
    expect(doseG({ amount: 1.5, unit: 'tsp' }, own)).toEqual({ g: 3.3 * 1.5, isMeasured: true });
    expect(doseG({ amount: 2, unit: 'g' }, own)).toBeNull();
    expect(doseG({ amount: 2, unit: 'drop' }, aStoredMaterial({ unit: 'piece' }))).toBeNull();
  });
});
