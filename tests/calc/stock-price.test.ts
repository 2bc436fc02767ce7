import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { farOff } from '#calc/far-off.ts';
import { mixBaitCost, mixCost } from '#calc/mix-price.ts';
import { stockOf } from '#calc/stock-level.ts';
import { stockPrice, unitCentsAt } from '#calc/stock-price.ts';
import type { MaterialId } from '#model/material.ts';
import type { MixSide } from '#model/mix.ts';
import type { Movement } from '#model/movement.ts';
import { evening, id } from '../hands/log.ts';
import { aMovement, aStoredMaterial, aUse, someMovements, someUses } from '../hands/stock.ts';
import { expectWithin } from '../hands/within.ts';

const material = aStoredMaterial();
const bought = (qty: number, cents: number) => ({ kind: 'bought', qty, cents, lot: '' }) as const;
const min = (minutes: number) => evening + minutes * 60_000;
const priceOf = (movements: Movement[], uses: ReturnType<typeof aUse>[] = [], of = material) =>
  stockPrice(stockOf(of, movements, uses).lines, of);

describe('the price of a material', () => {
  /** By hand: 100 for 10.00, 60 go, 40 stay for 4.00; 60 more for 9.00 make 100 for 13.00. */
  test('is the moving weighted average, frozen at its day', () => {
    const price = priceOf(
      [aMovement(1, bought(100, 1_000)), aMovement(3, bought(60, 900))],
      [aUse(60, 2), aUse(50, 4)],
    );
    expect([2, 3, 9].map((at) => unitCentsAt(price, material, min(at)))).toEqual([10, 13, 13]);
    expect(price.worthCents).toBe(650);
  });

  test('is not changed by what was used, and does not go when all is used up', () => {
    const price = priceOf([aMovement(1, bought(3, 100))], [aUse(1, 2), aUse(1, 3), aUse(1, 4)]);
    expectWithin(unitCentsAt(price, material, min(9)) ?? 0, 100 / 3, 1e-12);
    expect(price.worthCents).toBe(0);
  });

  test('before the first purchase is that of the package, or not told', () => {
    const packed = aStoredMaterial({ package: { qty: 200, cents: 980 } });
    const price = priceOf([aMovement(5, bought(100, 1_000))], [], packed);
    expect(unitCentsAt(price, packed, min(1))).toBe(4.9);
    expect(unitCentsAt(price, packed, min(5))).toBe(10);
    expect(unitCentsAt(price, material, min(1))).toBeNull();
  });

  test('a count that finds less takes its worth away, one that finds more brings it at the same price', () => {
    const less = priceOf([
      aMovement(1, bought(100, 1_000)),
      aMovement(2, { kind: 'counted', level: 80 }),
    ]);
    expect(less.worthCents).toBe(800);
    const more = priceOf([
      aMovement(1, bought(100, 1_000)),
      aMovement(2, { kind: 'counted', level: 120 }),
      aMovement(3, bought(80, 0)),
    ]);
    expect(unitCentsAt(more, material, min(2))).toBe(10);
    expect(unitCentsAt(more, material, min(3))).toBe(6);
  });

  test('what went beyond the journal costs nothing and is not taken off what is bought next', () => {
    const price = priceOf(
      [aMovement(1, bought(50, 500)), aMovement(4, bought(100, 2_000))],
      [aUse(80, 2)],
    );
    expect(price.worthCents).toBe(2_000);
    expect(unitCentsAt(price, material, min(4))).toBe(20);
  });

  test('no cent appears or is lost: what is left is never worth more than what was paid', () => {
    fc.assert(
      fc.property(someMovements, someUses, (movements, uses) => {
        const { lines } = stockOf(material, movements, uses);
        const { steps, worthCents } = stockPrice(lines, material);
        const unit = steps.map(({ unitCents }) => unitCents);
        const found = lines.some(
          ({ cause, change }) =>
            'movement' in cause && cause.movement.says.kind === 'counted' && change > 0,
        );
        let paid = 0;
        for (const { cause } of lines) {
          const says = 'movement' in cause ? cause.movement.says : null;
          if (says?.kind === 'bought') paid += says.cents;
        }
        expect(Number.isInteger(worthCents)).toBe(true);
        expect(worthCents).toBeGreaterThanOrEqual(0);
        if (!found) expect(worthCents).toBeLessThanOrEqual(paid);
        expect(unit.every((cents) => Number.isFinite(cents) && cents >= 0)).toBe(true);
      }),
    );
  });
});

const side = (plastisolId: number | null, drops: number): MixSide => ({
  role: 'only',
  name: 'Peat',
  swatch: '#5b4128',
  plastisolId: plastisolId === null ? null : id('material', plastisolId),
  doses: [
    {
      materialId: id<MaterialId>('material', 2),
      name: 'Soot black',
      amount: drops,
      unit: 'drop',
      isPinned: false,
    },
  ],
});
const priced = [
  { material: aStoredMaterial({ name: 'Clear', kind: 'plastisol' }, 1), unitCents: 1.06 },
  { material: aStoredMaterial({ dropMl: 0.05 }, 2), unitCents: 8 },
];

describe('the cost of a mix', () => {
  /** By hand: 60 drops of 0.05 mL are 3 mL for 24 cents, in 240 mL: 0.1 cent a mL. */
  test('is its plastisol and its doses, a mL', () => {
    const cost = mixCost({ baseMl: 240, sides: [side(1, 60)] }, priced);
    expect(cost.plastisolCentsPerMl).toBe(1.06);
    expectWithin(cost.colourCentsPerMl, 0.1, 1e-12);
    expect(cost.unpriced).toEqual([]);
  });

  test('has softener with the plastic, not with the colour', () => {
    const [clear] = priced;
    const softener = { material: aStoredMaterial({ kind: 'softener' }, 2), unitCents: 8 };
    const cost = mixCost(
      { baseMl: 240, sides: [side(1, 60)] },
      [clear, softener].flatMap((one) => one ?? []),
    );
    expectWithin(cost.plastisolCentsPerMl, 1.16, 1e-12);
    expect(cost.colourCentsPerMl).toBe(0);
  });

  test('of a laminate is the mean of its sides', () => {
    const cost = mixCost({ baseMl: 240, sides: [side(1, 60), side(1, 120)] }, priced);
    expect(cost.plastisolCentsPerMl).toBe(1.06);
    expectWithin(cost.colourCentsPerMl, 0.15, 1e-12);
  });

  test('says what has no price', () => {
    const none = mixCost({ baseMl: 240, sides: [side(null, 60)] }, []);
    expect(none).toEqual({
      plastisolCentsPerMl: 0,
      colourCentsPerMl: 0,
      unpriced: ['Plastisol', 'Soot black'],
    });
  });
});

describe('the cost of a bait', () => {
  /** By hand: 10 shots of 84 mL, 60 good of 9 mL: 540 in baits, 300 back at half their worth. */
  test('has what was lost on the way beside what is in it', () => {
    const run = { shots: 10, good: 60, partMl: 9, shotMl: 84 };
    const cost = mixBaitCost(
      run,
      { plastisolCentsPerMl: 1, colourCentsPerMl: 0.1, unpriced: [] },
      { bagCents: 2 },
    );
    if (!cost) throw new Error('It has a cost.');
    expect([cost.plastic, cost.bag, cost.time]).toEqual([9, 2, 0]);
    expectWithin(cost.colour, 0.9, 1e-12);
    expectWithin(cost.lost, (300 * 0.5 * 1.1) / 60, 1e-12);
    expectWithin(cost.perBait, 9 + 0.9 + 2.75 + 2, 1e-12);
  });

  test('cannot be told without a good bait', () => {
    const mix = { plastisolCentsPerMl: 1, colourCentsPerMl: 0, unpriced: [] };
    expect(mixBaitCost({ shots: 3, good: 0, partMl: 9, shotMl: 84 }, mix)).toBeNull();
    expect(mixBaitCost({ shots: 0, good: 0, partMl: 9, shotMl: 84 }, mix)).toBeNull();
  });
});

describe('a value far from the usual', () => {
  test('is one five times more or less than the middle of those before', () => {
    expect(farOff(500, [90, 100, 110])).toBe(100);
    expect(farOff(499, [90, 100, 110])).toBeNull();
    expect(farOff(20, [90, 100, 110])).toBe(100);
    expect(farOff(21, [90, 100, 110])).toBeNull();
  });

  test('is nothing while there is no usual', () => {
    expect(farOff(500, [])).toBeNull();
    expect(farOff(500, [0])).toBeNull();
    expect(farOff(0, [100])).toBeNull();
  });
});
