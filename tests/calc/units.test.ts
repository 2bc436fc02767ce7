import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cFromF, fFromC, gFrom, mmFromIn, toMl } from '#calc/units.ts';
import { expectNear, expectWithin } from '../hands/within.ts';

/*
 * Rows of the check table that touch no function of the product:
 * A47 (a drop is 0.05 mL, USP <1101>) is a constant, not a sum, and no unit here.
 * A49 (HCl in mg/m3) and A50 (density of a mix by its resin): the product states no fume level and
 * takes the density of plastisol as given.
 */

describe('volume and mass', () => {
  // A45. NIST Handbook 44, App. C; the digits were found again in stored tables.
  test.each([
    ['cup', 236.5882365],
    ['tsp', 4.92892159375],
    ['floz', 29.5735295625],
    ['tbsp', 14.78676478125],
    ['gal', 3785.411784],
    ['mL', 1],
  ] as const)('one %s holds the millilitres of Handbook 44', (unit, ml) => {
    expectNear(toMl(1, unit), ml, 1e-9);
  });

  test.each([
    ['lb', 453.59237],
    ['oz', 28.349523125],
    ['g', 1],
  ] as const)('one %s weighs the grams of Handbook 44', (unit, g) => {
    expectNear(gFrom(1, unit), g, 1e-9);
  });

  test('a fluid ounce is not an ounce: four of plastisol at 1.05 weigh 4.381 oz', () => {
    // Methods section 5, derived from the same exact digits.
    const weighedG = toMl(4, 'floz') * 1.05;
    expectWithin(weighedG, 124.2, 0.05);
    expectWithin(weighedG / gFrom(1, 'oz'), 4.381, 0.0005);
  });

  test('a cup is 48 teaspoons and 16 tablespoons', () => {
    // NIST Handbook 44, App. C.
    expectNear(toMl(48, 'tsp'), toMl(1, 'cup'), 1e-12);
    expectNear(toMl(16, 'tbsp'), toMl(1, 'cup'), 1e-12);
  });

  test('an inch is 25.4 mm', () => {
    // Exact since 1959: NIST Handbook 44, App. C.
    expect(mmFromIn(1)).toBe(25.4);
  });

  test('an amount that cannot be is refused by name', () => {
    expect(() => toMl(-1, 'cup')).toThrow(/^amount must be 0 or more/);
    expect(() => gFrom(Number.NaN, 'oz')).toThrow(/^amount must be a number/);
    expect(() => mmFromIn(Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });

  test('a unit nobody knows is refused, also one that every object has', () => {
    const unit = (word: string) => JSON.parse(`"${word}"`);
    expect(() => toMl(1, unit('pint'))).toThrow(RangeError);
    expect(() => toMl(1, unit('toString'))).toThrow(RangeError);
  });
});

describe('temperature', () => {
  // A46. NIST SP 811, B.8.
  test.each([
    [350, 176.667],
    [325, 162.778],
  ])('%d °F is %d °C', (f, c) => {
    expectWithin(cFromF(f), c, 1e-3);
  });

  test('165 °C is 329 °F', () => {
    // A46. NIST SP 811, B.8.
    expectWithin(fFromC(165), 329, 1e-3);
  });

  test('going to Fahrenheit and back changes nothing', () => {
    fc.assert(
      fc.property(fc.double({ min: -273, max: 2000, noNaN: true }), (c) => {
        expectWithin(cFromF(fFromC(c)), c, 1e-9);
      }),
    );
  });

  test('nothing is colder than absolute zero', () => {
    expect(() => cFromF(-460)).toThrow(/absolute zero/);
    expect(() => fFromC(-273.15)).toThrow(/absolute zero/);
  });
});
