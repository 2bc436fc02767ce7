import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { median } from '#calc/median.ts';
import { buyReason, poursLeft, usualUse } from '#calc/pours-left.ts';
import { joinedLines, standingMovements, stockOf } from '#calc/stock-level.ts';
import type { Movement } from '#model/movement.ts';
import { evening, id } from '../hands/log.ts';
import { aMovement, aStoredMaterial, aUse, someMovements, someUses } from '../hands/stock.ts';
import { expectWithin } from '../hands/within.ts';

const material = aStoredMaterial();
const bought = (qty: number) => ({ kind: 'bought', qty, cents: 1_000, lot: '' }) as const;
const lost = (qty: number) => ({ kind: 'lost', qty }) as const;
const counted = (level: number) => ({ kind: 'counted', level }) as const;
const back = (target: number): Movement['says'] => ({
  kind: 'taken-back',
  target: id('movement', target),
});

/** The level by adding up by hand: what stands after the last count, from what it said. */
function sumByHand(
  movements: readonly Movement[],
  uses: readonly { at: number; amount: number }[],
) {
  const standing = standingMovements(movements);
  const counts = standing.filter(({ says }) => says.kind === 'counted');
  const last = counts.toSorted((a, b) => a.at - b.at || (a.stamp < b.stamp ? -1 : 1)).at(-1);
  let sum = last?.says.kind === 'counted' ? last.says.level : 0;
  for (const { at, says } of standing) {
    if (last && at <= last.at) continue;
    if (says.kind === 'bought') sum += says.qty;
    if (says.kind === 'lost') sum -= says.qty;
  }
  for (const { at, amount } of uses) if (!last || at > last.at) sum -= amount;
  return sum;
}

describe('the level of a material', () => {
  test('is the sum of its movements and uses since it was last counted', () => {
    fc.assert(
      fc.property(someMovements, someUses, (movements, uses) => {
        const { level, missing } = stockOf(material, movements, uses);
        expectWithin(level - missing, sumByHand(movements, uses), 1e-6);
        expect(Math.min(level, missing)).toBe(0);
      }),
    );
  });

  test('loses no movement: every standing one and every use has its line, and the lines add up', () => {
    fc.assert(
      fc.property(someMovements, someUses, (movements, uses) => {
        const { lines, level, missing } = stockOf(material, movements, uses);
        expect(lines).toHaveLength(standingMovements(movements).length + uses.length);
        let sum = 0;
        for (const line of lines) {
          sum += line.change;
          expectWithin(line.level, sum, 1e-6);
        }
        expectWithin(level - missing, sum, 1e-6);
        const joined = joinedLines(lines);
        expectWithin(
          joined.reduce((all, { change }) => all + change, 0),
          sum,
          1e-6,
        );
      }),
    );
  });

  test('does not mind in what order, or how often, movements arrive', () => {
    const shuffled = fc.tuple(someMovements, someUses).chain(([movements, uses]) =>
      fc.tuple(
        fc.constant(movements),
        fc.constant(uses),
        fc.shuffledSubarray([...movements, ...movements], {
          minLength: movements.length * 2,
        }),
        fc.shuffledSubarray(uses, { minLength: uses.length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([movements, uses, otherMovements, otherUses]) => {
        expect(stockOf(material, otherMovements, otherUses)).toEqual(
          stockOf(material, movements, uses),
        );
      }),
    );
  });

  test('is exactly what it was once a movement is taken back, and again once that is', () => {
    fc.assert(
      fc.property(someMovements, someUses, fc.integer({ min: 0, max: 13 }), (all, uses, which) => {
        const target = all[which];
        if (!target) return;
        const number = all.length + 1;
        const taken = aMovement(number, { kind: 'taken-back', target: target.id }, 900);
        const without = all.filter(({ id: own }) => own !== target.id);
        expect(stockOf(material, [...all, taken], uses)).toEqual(stockOf(material, without, uses));
        const again = aMovement(number + 1, { kind: 'taken-back', target: taken.id }, 901);
        expect(stockOf(material, [...all, taken, again], uses)).toEqual(
          stockOf(material, all, uses),
        );
      }),
    );
  });

  test('of two copies of a journal is the same whichever is merged into which, and how often', () => {
    fc.assert(
      fc.property(someMovements, fc.integer({ min: 0, max: 14 }), (all, cut) => {
        const [a, b] = [all.slice(0, cut), all.slice(Math.max(0, cut - 3))];
        const merged = stockOf(material, [...a, ...b], []);
        expect(stockOf(material, [...b, ...a], [])).toEqual(merged);
        expect(stockOf(material, [...a, ...b, ...a], [])).toEqual(merged);
        expect(stockOf(material, all, [])).toEqual(merged);
      }),
    );
  });

  test('is never shown below nothing: it says how much is missing', () => {
    const movements = [aMovement(1, bought(100))];
    expect(stockOf(material, movements, [aUse(130, 2)])).toMatchObject({ level: 0, missing: 30 });
    expect(stockOf(material, [], [])).toMatchObject({ level: 0, missing: 0, seenAt: null });
  });

  test('starts again from a count, and is left alone by a look that found it right', () => {
    const movements = [
      aMovement(1, bought(100)),
      aMovement(3, counted(60)),
      aMovement(5, { kind: 'checked' }),
      aMovement(6, lost(5)),
    ];
    const { level, lines, seenAt } = stockOf(material, movements, [aUse(30, 2), aUse(10, 4)]);
    expect(level).toBe(45);
    expect(lines.map(({ change }) => change)).toEqual([100, -30, -10, -10, 0, -5]);
    expect(seenAt).toBe(evening + 5 * 60_000);
  });

  test('takes no notice of other materials', () => {
    const other = { ...aMovement(2, bought(7)), materialId: id('material', 9) } as Movement;
    const use = { ...aUse(5, 3), materialId: other.materialId };
    expect(stockOf(material, [aMovement(1, bought(100)), other], [use]).level).toBe(100);
  });

  test('a purchase that is written later, for an earlier day, is counted where it belongs', () => {
    const movements = [aMovement(1, counted(50), 10), aMovement(2, bought(400), 5)];
    expect(stockOf(material, movements, []).level).toBe(50);
    expect(stockOf(material, [...movements, aMovement(3, back(1), 11)], []).level).toBe(400);
  });
});

describe('the journal as it is shown', () => {
  test('has one line for what a session took in a row', () => {
    const { lines } = stockOf(
      material,
      [aMovement(1, bought(100)), aMovement(4, counted(70))],
      [aUse(10, 2), aUse(5, 3), aUse(20, 6)],
    );
    expect(joinedLines(lines).map(({ change, level }) => [change, level])).toEqual([
      [100, 100],
      [-15, 85],
      [-15, 70],
      [-20, 50],
    ]);
  });
});

describe('pours that are left', () => {
  const { lines } = stockOf(
    material,
    [aMovement(1, bought(1_000))],
    [aUse(90, 2), aUse(100, 3), aUse(300, 4), aUse(110, 5)],
  );

  test('are told by the middle of what this shop took for a mix', () => {
    expect(usualUse(lines)).toBe(105);
    expect(poursLeft(400, 105)).toBe(3);
    expect(poursLeft(104, 105)).toBe(0);
    // Arithmetic may leave a hair less than three whole pours.
    expect(poursLeft(0.3, 0.1)).toBe(3);
  });

  test('are not told from fewer than three mixes; two sides mixed in one act are one', () => {
    const pair = [aUse(50, 2), aUse(55, 2)];
    const few = stockOf(material, [], [...pair, aUse(90, 3)]);
    expect(usualUse(few.lines)).toBeNull();
    expect(poursLeft(400, usualUse(few.lines))).toBeNull();
    const enough = stockOf(material, [], [...pair, aUse(90, 3), aUse(100, 4)]);
    expect(usualUse(enough.lines)).toBe(100);
  });

  test('the middle of an even number of values lies between the two in the middle', () => {
    expect([median([3]), median([1, 9]), median([5, 1, 3])]).toEqual([3, 5, 3]);
  });
});

describe('the list of what to buy', () => {
  const stocked = (qty: number, ...used: number[]) =>
    stockOf(
      material,
      [aMovement(1, bought(qty))],
      used.map((amount, index) => aUse(amount, index + 2)),
    );

  test('names what is out, what is at its reorder point, and what will not do for a pour', () => {
    const at = { ...material, reorderAt: 20 };
    expect(buyReason(at, stocked(100))).toBeNull();
    expect(buyReason(at, stocked(20))).toBe('low');
    expect(buyReason(at, stocked(30, 30))).toBe('out');
    expect(buyReason(material, stocked(155, 50, 50, 50))).toBe('runs-out');
    expect(buyReason(material, stocked(255, 50, 50, 50))).toBeNull();
  });

  test('leaves out what was set aside and what was never on the shelf', () => {
    expect(buyReason({ ...material, isAside: true }, stocked(30, 30))).toBeNull();
    expect(buyReason({ ...material, reorderAt: 20 }, stockOf(material, [], []))).toBeNull();
  });
});
