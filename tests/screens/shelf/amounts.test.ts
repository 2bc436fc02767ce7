import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  amountFrom,
  amountText,
  centsFrom,
  flakeWords,
  moneyWords,
  stockWords,
  typedUnits,
  type Units,
  unitFor,
} from '#screens/amounts.ts';

const mL: Units = { volume: 'mL', mass: 'g' };
const floz: Units = { volume: 'floz', mass: 'oz' };
const cup: Units = { volume: 'cup', mass: 'oz' };

describe('a typed amount', () => {
  /** NIST Handbook 44, Appendix C; the same digits in NIST SP 811, B.8. */
  test.each([
    ['gal', 3_785.411784],
    ['cup', 236.5882365],
    ['floz', 29.5735295625],
    ['tsp', 4.92892159375],
    ['L', 1_000],
    ['oz', 28.349523125],
    ['lb', 453.59237],
    ['kg', 1_000],
  ] as const)('one %s is %s, exactly', (unit, inStock) => {
    expect(amountFrom('1', unit)).toBeCloseTo(inStock, 9);
    expect(amountFrom('2,5', unit)).toBeCloseTo(2.5 * inStock, 9);
  });

  test('is shown again as it was typed, in the unit it was typed in', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9_999_999 }),
        fc.constantFrom(mL, floz, cup),
        fc.constantFrom('mL', 'g', 'piece'),
        (thousandths, units, stock) => {
          for (const unit of typedUnits(stock, units)) {
            const text = String(thousandths / 1_000);
            expect(amountText(amountFrom(text, unit) ?? Number.NaN, unit)).toBe(text);
          }
        },
      ),
      { seed: 20_261 },
    );
  });

  test('of one gallon, a pound or a litre is offered in that unit', () => {
    expect(unitFor(3_785.411784, 'mL', cup)).toBe('gal');
    expect(unitFor(453.59237, 'g', floz)).toBe('lb');
    expect(unitFor(1_000, 'mL', mL)).toBe('L');
    expect(unitFor(118.294118, 'mL', cup)).toBe('floz');
    expect(unitFor(0, 'piece', cup)).toBe('piece');
  });

  test('money is whole cents, with a point or a comma', () => {
    expect(['9.80', '9,8', '10', '0.004', 'x'].map(centsFrom)).toEqual([980, 980, 1_000, 0, null]);
    expect([980, 5, 0, 123_456, 99.6].map(moneyWords)).toEqual([
      '9.80',
      '0.05',
      '0.00',
      '1234.56',
      '1.00',
    ]);
  });
});

describe('an amount in words', () => {
  test.each([
    [2.25, 'mL', mL, '2.3 mL'],
    [118.294118, 'mL', mL, '118 mL'],
    [18_927.05892, 'mL', mL, '18.9 L'],
    [118.294118, 'mL', floz, '4 fl oz'],
    [10, 'mL', floz, '2 tsp'],
    [18_927.05892, 'mL', floz, '5.0 gal'],
    [473.176473, 'mL', cup, '2 cups'],
    [177.44117, 'mL', cup, '6 fl oz'],
    [3, 'g', mL, '3 g'],
    [2_267.96185, 'g', mL, '2.3 kg'],
    [113.398093, 'g', floz, '4 oz'],
    [2_267.96185, 'g', floz, '5.0 lb'],
    [1, 'piece', mL, '1 piece'],
    [40, 'piece', mL, '40 pieces'],
    [0, 'mL', cup, '0 tsp'],
  ] as const)('%s %s', (qty, unit, units, words) => {
    expect(stockWords(qty, unit, units)).toBe(words);
  });

  /** 0.035 in are 0.889 mm: the inch is exactly 25.4 mm (NIST SP 811, B.8). */
  test('a flake is told in both systems', () => {
    expect(flakeWords({ acrossMm: 0.889, cut: 'hex' })).toBe('0.035 in, 0.89 mm, hex');
  });
});
