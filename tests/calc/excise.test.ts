import { describe, expect, test } from 'vitest';
import { exciseCents } from '#calc/excise.ts';

const nothing = { soldToShopsCents: 0, soldRetailCents: 0, retailShare: 0.75 };

describe('the excise estimate', () => {
  // A51. 26 USC 4161(a): 10 %, tackle boxes 3 %; Rev. Rul. 80-273: 75 % of a retail price (read).
  // The 60 % is only quoted second-hand (Rev. Rul. 81-226).
  test.each([
    ['a sale of $100 to a shop', { soldToShopsCents: 10_000 }, 1000],
    ['$100 of retail at 75 %', { soldRetailCents: 10_000 }, 750],
    ['$100 of retail at 60 %', { soldRetailCents: 10_000, retailShare: 0.6 }, 600],
    ['a tackle box of $40', { tackleBoxCents: 4000 }, 120],
  ])('of %s is exact to the cent', (_sale, change, cents) => {
    expect(exciseCents({ ...nothing, ...change })).toBe(cents);
  });

  test('of several kinds of sale is their sum', () => {
    // A51 added up: $10.00 + $7.50 + $1.20.
    const all = { soldToShopsCents: 10_000, soldRetailCents: 10_000, tackleBoxCents: 4000 };
    expect(exciseCents({ ...nothing, ...all })).toBe(1870);
  });

  test('comes in whole cents', () => {
    expect(exciseCents({ ...nothing, soldRetailCents: 333 })).toBe(25);
  });

  test('of no sale is nothing', () => {
    expect(exciseCents(nothing)).toBe(0);
  });

  test('refuses a price below 0 and a share above 1 by name', () => {
    expect(() => exciseCents({ ...nothing, soldToShopsCents: -1 })).toThrow(/^soldToShopsCents/);
    expect(() => exciseCents({ ...nothing, retailShare: 1.2 })).toThrow(/^retailShare must be/);
  });
});
