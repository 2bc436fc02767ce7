import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batchText, nextBatches } from '#calc/batch.ts';
import { standingOf } from '#calc/log.ts';
import { pouredSide } from '#calc/mix.ts';
import { isSameMix, mixDifference } from '#calc/mix-difference.ts';
import { pouredCents, pricedAt, pricesOf } from '#calc/mix-price.ts';
import { inFives, spoonsFor } from '#calc/spoons.ts';
import { oddDose } from '#calc/usual-dose.ts';
import type { Said } from '#model/entry.ts';
import type { Dose, MixSide } from '#model/mix.ts';
import type { Movement } from '#model/movement.ts';
import { evening, id, Pen, potMixed } from '../hands/log.ts';
import { aMovement, aStoredMaterial } from '../hands/stock.ts';
import { expectWithin } from '../hands/within.ts';

const dose = (number: number, amount: number, changes: Partial<Dose> = {}): Dose => ({
  materialId: id('material', number),
  name: `Material ${number}`,
  amount,
  unit: 'drop',
  isPinned: false,
  ...changes,
});
const mix = (doses: Dose[], baseMl = 240) => ({ baseMl, sides: [side(doses)] });
const side = (doses: Dose[]): MixSide => ({
  role: 'only',
  name: 'Peat',
  swatch: '#5b4029',
  plastisolId: null,
  doses,
});

describe('two versions side by side', () => {
  test('show what was added, left out and changed, for the newer one’s volume', () => {
    const before = mix([dose(1, 12), dose(2, 3), dose(3, 1)], 240);
    const after = mix([dose(1, 24), dose(2, 8), dose(4, 2)], 480);
    expect(mixDifference(before, after)).toEqual([
      { role: 'only', name: 'Material 2', unit: 'drop', before: 6, after: 8 },
      { role: 'only', name: 'Material 4', unit: 'drop', before: null, after: 2 },
      { role: 'only', name: 'Material 3', unit: 'drop', before: 2, after: null },
    ]);
  });

  test('are the same when only the volume they were written for is another', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 10, noNaN: true }), (times) => {
        const written = mix([dose(1, 12), dose(2, 0.3)]);
        const other = mix([dose(1, 12 * times), dose(2, 0.3 * times)], 240 * times);
        expect(isSameMix(written, other)).toBe(true);
      }),
    );
    expect(isSameMix(mix([dose(1, 12)]), mix([dose(1, 12, { isPinned: true })]))).toBe(false);
    expect(isSameMix(mix([dose(1, 12)]), mix([dose(1, 12.1)]))).toBe(false);
  });
});

describe('a dose far from the usual', () => {
  const usual = [mix([dose(1, 10)]), mix([dose(1, 24)], 480), mix([dose(1, 11)])];

  test('is told from five times on, up and down, the farthest first', () => {
    // Median of 10, 12 and 11 drops in 240 mL: 11.
    expect(oddDose(mix([dose(1, 54)]), usual)).toBeNull();
    expect(oddDose(mix([dose(1, 55)]), usual)?.times).toBeCloseTo(5, 9);
    expect(oddDose(mix([dose(1, 2.2)]), usual)?.times).toBeCloseTo(0.2, 9);
    expect(oddDose(mix([dose(1, 2.3)]), usual)).toBeNull();
  });

  test('is not told of a material that was never used before', () => {
    expect(oddDose(mix([dose(9, 500)]), usual)).toBeNull();
    expect(oddDose(mix([dose(1, 500, { unit: 'tsp' })]), usual)).toBeNull();
  });
});

describe('spoons and drops as they are drawn', () => {
  test('the spoons of a set add up to the dose, and none could be one larger spoon', () => {
    fc.assert(
      fc.property(fc.nat(400), (eighths) => {
        const spoons = spoonsFor(eighths);
        expect(spoons.reduce<number>((sum, size) => sum + size, 0)).toBe(eighths);
        expect(spoons.filter((size) => size < 8).length).toBe(
          new Set(spoons.filter((s) => s < 8)).size,
        );
        expect(spoons.filter((size) => size === 8).length).toBeLessThan(3);
      }),
    );
    // 1 3/8 teaspoons, row D10 of methods-colour-plan.
    expect(spoonsFor(11)).toEqual([8, 2, 1]);
  });

  test('drops are counted in fives', () => {
    expect(inFives(12)).toEqual([5, 5, 2]);
    expect(inFives(5)).toEqual([5]);
    expect(inFives(0)).toEqual([]);
  });
});

describe('the number on the cup', () => {
  const zone = 'Europe/Berlin';
  const mixed = (batch: string | null): Said => {
    const said = potMixed(1);
    if (said.kind !== 'pot-mixed') throw new Error('That is no mix.');
    return { ...said, pots: said.pots.map((pot) => ({ ...pot, batch })) };
  };

  test('is the day and which pot of it', () => {
    expect(batchText('2026-12-03', 2)).toBe('1203-2');
    expect(nextBatches([], { at: Date.UTC(2026, 11, 3, 20), zone }, 2)).toEqual([
      '1203-1',
      '1203-2',
    ]);
  });

  test('goes on from the last one, also where pots had no number, and is free again after Undo', () => {
    const pen = new Pen();
    pen.write(mixed(null), evening);
    expect(nextBatches(standingOf(pen.entries), { at: evening, zone }, 1)).toEqual(['1124-2']);
    const second = pen.write(mixed('1124-5'));
    expect(nextBatches(standingOf(pen.entries), { at: evening, zone }, 1)).toEqual(['1124-6']);
    pen.write({ kind: 'taken-back', target: second.id });
    expect(nextBatches(standingOf(pen.entries), { at: evening, zone }, 1)).toEqual(['1124-2']);
  });

  test('begins again with the calendar day of the shop', () => {
    const pen = new Pen();
    pen.write(mixed('1124-7'), evening);
    // 23:30 UTC is half past midnight in Berlin.
    const at = Date.UTC(2026, 10, 24, 23, 30);
    expect(nextBatches(standingOf(pen.entries), { at, zone }, 1)).toEqual(['1125-1']);
    expect(nextBatches(standingOf(pen.entries), { at, zone: 'UTC' }, 1)).toEqual(['1124-8']);
  });
});

describe('what a pot and a bait cost', () => {
  // 1.06 cents a mL, as in row M01 of methods-colour-plan.
  const plastisol = aStoredMaterial(
    { kind: 'plastisol', package: { qty: 1_000, cents: 1_060 } },
    1,
  );
  const black = aStoredMaterial({ package: { qty: 30, cents: 600 } }, 2);
  const flake = aStoredMaterial({ kind: 'flake', unit: 'g', package: { qty: 60, cents: 720 } }, 3);
  const materials = [plastisol, black, flake];
  const inClear = (doses: Dose[]): MixSide => ({ ...side(doses), plastisolId: plastisol.id });
  const poured = (of: MixSide) => ({ side: of, ...pouredSide(of, 200) });
  const cup = poured(inClear([dose(2, 20), dose(3, 1, { unit: 'tsp' })]));
  const pricesAt = (movements: Movement[]) =>
    pricedAt(pricesOf({ materials, movements, uses: [] }), evening + 3_600_000);

  test('the cup is the sum of what is in it, by the packages while nothing was bought', () => {
    // By hand: 200 x 1.06 = 212; 1 mL x 20 + 3 g x 12 = 56.
    expectWithin(pouredCents([cup], pricesAt([])) ?? 0, 268, 1e-9);
    expectWithin(pouredCents([cup, cup], pricesAt([])) ?? 0, 536, 1e-9);
  });

  test('what was bought is counted at its moving average, not as its package says', () => {
    const bought = (qty: number, cents: number) =>
      ({ kind: 'bought', qty, cents, lot: '' }) as const;
    // 100 mL for 1.00 and 100 mL for 3.00: 2 cents a mL instead of 1.06.
    const movements = [aMovement(1, bought(100, 100)), aMovement(2, bought(100, 300))];
    expectWithin(pouredCents([cup], pricesAt(movements)) ?? 0, 200 * 2 + 56, 1e-9);
  });

  test('a cup with something in it that has no price has none', () => {
    expect(pouredCents([poured(side([dose(2, 20)]))], pricesAt([]))).toBeNull();
    expect(pouredCents([poured(inClear([dose(9, 5)]))], pricesAt([]))).toBeNull();
  });
});
