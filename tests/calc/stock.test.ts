import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { averageLedger, fifoLedger, type Move, periodAverage, reorderDay } from '#calc/stock.ts';
import { expectWithin } from '../hands/within.ts';

const moves = fc.array(
  fc.oneof(
    fc.record({
      qty: fc.double({ min: 0.01, max: 5000, noNaN: true }),
      cents: fc.integer({ min: 0, max: 100_000 }),
    }),
    fc.record({ qty: fc.double({ min: -3000, max: -0.01, noNaN: true }) }),
  ),
  { maxLength: 30 },
) as fc.Arbitrary<Move[]>;

const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);

/** The moves that a ledger took: all uses it priced, and the purchases between them. */
function taken(list: readonly Move[], uses: number): Move[] {
  let left = uses;
  const end = list.findIndex((move) => move.qty < 0 && --left < 0);
  return end < 0 ? [...list] : list.slice(0, end);
}

describe.each([
  ['moving average', averageLedger],
  ['first in, first out', fifoLedger],
])('a ledger at %s', (_, ledger) => {
  test('loses no move and no cent, and the level is the sum of the moves', () => {
    fc.assert(
      fc.property(moves, (list) => {
        const { used, short, qty, cents } = ledger(list);
        const done = taken(list, used.length);
        if (short === 0) expect(done).toHaveLength(list.length);
        expectWithin(qty, sum(done.map((move) => move.qty)), 1e-6);
        expect(cents + sum(used)).toBe(sum(done.map((move) => move.cents ?? 0)));
        expect(qty).toBeGreaterThanOrEqual(0);
        expect(cents).toBeGreaterThanOrEqual(0);
        expect([...used, cents].every(Number.isInteger)).toBe(true);
      }),
    );
  });

  test('stops at the first use of more than there is, and says how much is missing', () => {
    const list: Move[] = [
      { qty: 5, cents: 500 },
      { qty: -2 },
      { qty: -7 },
      { qty: 100, cents: 900 },
    ];
    expect(ledger(list)).toEqual({ used: [200], short: 4, qty: 3, cents: 300 });
    expect(ledger([{ qty: -2 }])).toEqual({ used: [], short: 2, qty: 0, cents: 0 });
  });

  test('lets all be used when only the computer thinks there is less', () => {
    const list: Move[] = [{ qty: 0.1, cents: 7 }, { qty: 0.2, cents: 8 }, { qty: -0.3 }];
    expect(ledger(list)).toEqual({ used: [15], short: 0, qty: 0, cents: 0 });
    const turned: Move[] = [{ qty: 0.3, cents: 9 }, { qty: -0.1 }, { qty: -0.2 }];
    expect(ledger(turned)).toEqual({ used: [3, 6], short: 0, qty: 0, cents: 0 });
  });

  test('of nothing is empty', () => {
    expect(ledger([])).toEqual({ used: [], short: 0, qty: 0, cents: 0 });
  });

  test.each([
    ['a purchase without a price', [{ qty: 1 }]],
    ['a purchase for half a cent', [{ qty: 1, cents: 0.5 }]],
    ['a purchase for less than nothing', [{ qty: 1, cents: -5 }]],
    ['a move of nothing', [{ qty: 0, cents: 5 }]],
    ['a NaN move', [{ qty: Number.NaN, cents: 5 }]],
    ['an endless use', [{ qty: -Infinity }]],
  ])('refuses %s', (_name, list) => {
    expect(() => ledger(list)).toThrow(RangeError);
    expect(() => periodAverage(list)).toThrow(RangeError);
  });
});

describe('first in, first out', () => {
  test('is a queue of single pieces', () => {
    // Oracle: every piece carries its own price and leaves in the order it came.
    const pieces = fc.array(
      fc.oneof(
        fc.record({ qty: fc.integer({ min: 1, max: 20 }), each: fc.integer({ min: 0, max: 300 }) }),
        fc.record({ qty: fc.integer({ min: -15, max: -1 }), each: fc.constant(0) }),
      ),
      { maxLength: 20 },
    );
    fc.assert(
      fc.property(pieces, (list) => {
        const queue: number[] = [];
        const wanted: number[] = [];
        for (const { qty, each } of list) {
          if (qty > 0) queue.push(...new Array<number>(qty).fill(each));
          else if (-qty > queue.length) break;
          else wanted.push(sum(queue.splice(0, -qty)));
        }
        const asMoves = list.map(
          ({ qty, each }): Move => (qty > 0 ? { qty, cents: qty * each } : { qty }),
        );
        expect(fifoLedger(asMoves).used).toEqual(wanted);
      }),
    );
  });
});

describe('a moving average', () => {
  test('does not mind whether two lots come as one', () => {
    const two: Move[] = [{ qty: 4, cents: 100 }, { qty: 6, cents: 500 }, { qty: -5 }];
    expect(averageLedger(two)).toEqual(averageLedger([{ qty: 10, cents: 600 }, { qty: -5 }]));
  });
});

describe('the average of a period', () => {
  test('does not mind the order of the moves', () => {
    const list: Move[] = [{ qty: 4, cents: 100 }, { qty: -5 }, { qty: 6, cents: 500 }, { qty: -1 }];
    // By hand: 600 cents for 10, 6 used.
    const wanted = { averageCents: 60, usedCents: 360, qty: 4, cents: 240 };
    expect(periodAverage(list)).toEqual(wanted);
    expect(periodAverage(list.toReversed())).toEqual(wanted);
  });

  test('needs a purchase, and no more use than that', () => {
    expect(() => periodAverage([])).toThrow(RangeError);
    expect(() => periodAverage([{ qty: 1, cents: 5 }, { qty: -2 }])).toThrow(RangeError);
  });
});

describe('the day to order', () => {
  test('is now when the reserve lasts just as long as the way here, and was before', () => {
    expect(reorderDay({ qty: 240, usePerDay: 20, leadDays: 7, reserve: 100 })).toBe(0);
    expect(reorderDay({ qty: 0, usePerDay: 20, leadDays: 7 })).toBe(-7);
  });

  test.each([
    ['no use', { qty: 5, usePerDay: 0, leadDays: 1 }],
    ['a negative level', { qty: -5, usePerDay: 1, leadDays: 1 }],
    ['a NaN reserve', { qty: 5, usePerDay: 1, leadDays: 1, reserve: Number.NaN }],
  ])('cannot be told for %s', (_, shelf) => {
    expect(() => reorderDay(shelf)).toThrow(RangeError);
  });
});
