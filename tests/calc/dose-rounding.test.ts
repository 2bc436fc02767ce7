import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  geometricRound,
  largestRemainder,
  roundedDoses,
  smallestBaseMl,
  spoonText,
} from '#calc/dose.ts';
import { expectWithin } from '../hands/within.ts';

const amounts = fc.array(fc.double({ min: 0.2, max: 40, noNaN: true }), {
  minLength: 1,
  maxLength: 4,
});
const drops = (list: readonly number[]) => list.map((amount) => ({ amount, step: 1 }));

describe('rounding by ratio', () => {
  test('errs by no more than the half way between neighbours, and never rounds away', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e4, noNaN: true }), (x) => {
        const whole = geometricRound(x);
        expect(whole).toBeGreaterThanOrEqual(1);
        const below = Math.floor(x);
        if (below === 0) return;
        const ratio = Math.max(whole / x, x / whole);
        expect(ratio).toBeLessThanOrEqual(Math.sqrt(1 + 1 / below) + 1e-12);
      }),
    );
  });

  test('turns at the geometric mean, upwards', () => {
    // Sqrt 2 = 1.41421356, sqrt 6 = 2.44948974.
    expect(geometricRound(1.41)).toBe(1);
    expect(geometricRound(1.42)).toBe(2);
    expect(geometricRound(2.44)).toBe(2);
    expect(geometricRound(2.45)).toBe(3);
    expect(geometricRound(7)).toBe(7);
  });
});

describe('rounded doses', () => {
  test('keep the bound of the smallest dose, and the base within what is allowed', () => {
    fc.assert(
      fc.property(amounts, (list) => {
        const rounded = roundedDoses(drops(list), { baseMl: 240 });
        expect(rounded.counts.every((count) => Number.isInteger(count) && count >= 1)).toBe(true);
        expect(rounded.baseMl).toBeGreaterThanOrEqual(240);
        expect(rounded.baseMl).toBeLessThanOrEqual(240 * 1.1 + 1e-9);
        const smallest = Math.floor(Math.min(...list));
        if (smallest >= 1) {
          expect(rounded.worstRatio).toBeLessThanOrEqual(Math.sqrt(1 + 1 / smallest) - 1 + 1e-12);
        }
      }),
    );
  });

  test('are as good as any that a search over a thousand bases finds', () => {
    fc.assert(
      fc.property(amounts, fc.constantFrom(0, 0.1, 0.5), (list, mostExtraShare) => {
        const found = roundedDoses(drops(list), { baseMl: 100, mostExtraShare });
        const worstOf = (counts: readonly number[], scale: number) =>
          Math.max(...list.map((x, at) => Math.abs(Math.log((counts[at] ?? 0) / (scale * x)))));
        let least = Infinity;
        for (let step = 0; step <= 1000; step++) {
          const scale = 1 + (mostExtraShare * step) / 1000;
          const near = list.map((x) => {
            const below = Math.max(Math.floor(scale * x), 1);
            return below * (below + 1) < (scale * x) ** 2 ? below + 1 : below;
          });
          least = Math.min(least, worstOf(near, scale));
        }
        expect(Math.log1p(found.worstRatio)).toBeLessThanOrEqual(least + 1e-9);
        expectWithin(worstOf(found.counts, found.scale), Math.log1p(found.worstRatio), 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  test('do not mind the order of the lines, nor in which unit they are', () => {
    fc.assert(
      fc.property(amounts, (list) => {
        const one = roundedDoses(drops(list), { baseMl: 240 });
        const turned = roundedDoses(drops(list.toReversed()), { baseMl: 240 });
        expect(turned.counts.toReversed()).toEqual(one.counts);
        const eighths = list.map((amount) => ({ amount: amount / 8, step: 0.125 }));
        expect(roundedDoses(eighths, { baseMl: 240 }).counts).toEqual(one.counts);
      }),
    );
  });

  test('that are whole stay as they are, at the base asked for', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 4 }),
        (n) => {
          expect(roundedDoses(drops(n), { baseMl: 240, mostExtraShare: 1 })).toEqual({
            counts: n,
            baseMl: 240,
            scale: 1,
            worstRatio: 0,
          });
        },
      ),
    );
  });
});

describe('the smallest base', () => {
  test('holds exactly one step of the smallest dose', () => {
    fc.assert(
      fc.property(amounts, (list) => {
        const baseMl = smallestBaseMl(drops(list), 240);
        const scaled = list.map((amount) => (amount * baseMl) / 240);
        expectWithin(Math.min(...scaled), 1, 1e-9);
      }),
    );
  });
});

describe('shares of a whole', () => {
  const shares = fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), {
    minLength: 1,
    maxLength: 8,
  });

  test('add up to it, each within one of its part', () => {
    fc.assert(
      fc.property(shares, fc.integer({ min: 0, max: 5000 }), (list, total) => {
        const sum = list.reduce((a, b) => a + b, 0);
        fc.pre(sum > 0);
        const counts = largestRemainder(list, total);
        expect(counts.reduce((a, b) => a + b, 0)).toBe(total);
        for (const [at, count] of counts.entries()) {
          expect(Math.abs(count - ((list[at] ?? 0) / sum) * total)).toBeLessThan(1 + 1e-6);
        }
      }),
    );
  });

  test('scaled twice are scaled once', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 1000 }), { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 1, max: 500 }),
        (list, total) => {
          const doubled = list.map((share) => 2 * (2 * share));
          const fourfold = list.map((share) => 4 * share);
          expect(largestRemainder(doubled, total)).toEqual(largestRemainder(fourfold, total));
          expect(largestRemainder(fourfold, total)).toEqual(largestRemainder(list, total));
        },
      ),
    );
  });

  test('of nothing are nothing', () => {
    expect(largestRemainder([], 0)).toEqual([]);
    expect(largestRemainder([0, 0], 0)).toEqual([0, 0]);
  });
});

describe('a spoon', () => {
  test('reads as on the spoon', () => {
    // Kitchen spoons: common practice, no source.
    const words = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 12, 16].map(spoonText);
    expect(words).toEqual([
      '0',
      '1/8',
      '1/4',
      '3/8',
      '1/2',
      '5/8',
      '3/4',
      '7/8',
      '1',
      '1 1/8',
      '1 1/2',
      '2',
    ]);
  });
});

describe('doses that cannot be are refused', () => {
  test.each([
    ['none', () => roundedDoses([], { baseMl: 100 })],
    ['a negative one', () => roundedDoses([{ amount: -1, step: 1 }], { baseMl: 100 })],
    ['one of nothing', () => roundedDoses([{ amount: 0, step: 1 }], { baseMl: 100 })],
    ['a NaN one', () => roundedDoses([{ amount: Number.NaN, step: 1 }], { baseMl: 100 })],
    ['a step of nothing', () => roundedDoses([{ amount: 1, step: 0 }], { baseMl: 100 })],
    ['a million drops', () => roundedDoses([{ amount: 1e6, step: 1 }], { baseMl: 100 })],
    ['a base of nothing', () => roundedDoses([{ amount: 1, step: 1 }], { baseMl: 0 })],
    [
      'less base',
      () => roundedDoses([{ amount: 1, step: 1 }], { baseMl: 100, mostExtraShare: -0.1 }),
    ],
    ['0 to round', () => geometricRound(0)],
    ['NaN to round', () => geometricRound(Number.NaN)],
    ['no doses for a base', () => smallestBaseMl([], 100)],
    ['a negative share', () => largestRemainder([1, -1], 5)],
    ['a NaN share', () => largestRemainder([Number.NaN], 5)],
    ['a total with nothing to share by', () => largestRemainder([0, 0], 5)],
    ['half a total', () => largestRemainder([1], 0.5)],
    ['half an eighth', () => spoonText(0.5)],
    ['a spoon below 0', () => spoonText(-1)],
  ])('%s', (_, run) => {
    expect(run).toThrow(RangeError);
  });
});
