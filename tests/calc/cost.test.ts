import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { baitCost, shownCents } from '#calc/cost.ts';
import { expectWithin } from '../hands/within.ts';

const batch = {
  good: 60,
  partMl: 9,
  pouredMl: 793,
  remeltBackMl: 200,
  plastisolCentsPerMl: 1.06,
  colourCentsPerMl: 0.1,
};

describe('the cost of a bait', () => {
  test('adds up: all that was spent is in the baits', () => {
    const money = fc.double({ min: 0, max: 50, noNaN: true });
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.double({ min: 0.5, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.tuple(money, money, money, money),
        (good, partMl, extra, back, [plastisol, colour, bag, perMin]) => {
          const spareMl = good * partMl * extra;
          const pouredMl = good * partMl + spareMl;
          const cost = baitCost({
            good,
            partMl,
            pouredMl,
            remeltBackMl: spareMl * back,
            plastisolCentsPerMl: plastisol,
            colourCentsPerMl: colour,
            bagCents: bag,
            timeMin: 30,
            timeCentsPerMin: perMin,
          });
          const spent = pouredMl * (plastisol + colour) + good * bag + 30 * perMin;
          const worth = (spareMl * back * (plastisol + colour)) / 2;
          expectWithin(cost.total, spent - worth, 1e-6 * (1 + spent));
          const parts = cost.plastic + cost.colour + cost.lost + cost.bag + cost.time;
          expectWithin(parts, cost.perBait, 1e-9 * (1 + parts));
          expect(cost.lost).toBeGreaterThanOrEqual(-1e-9);
        },
      ),
    );
  });

  test('loses less the more the remelt is worth', () => {
    const worthless = baitCost({ ...batch, remeltValueShare: 0 });
    const worthAll = baitCost({ ...batch, remeltValueShare: 1 });
    // By hand: 200 mL x 1.16 ct over 60 baits.
    expectWithin(worthless.lost - worthAll.lost, 232 / 60, 1e-9);
  });
});

describe('cents as shown', () => {
  test('add up to the total as shown, each within one of its own', () => {
    const parts = fc.array(fc.double({ min: 0, max: 300, noNaN: true }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(parts, (list) => {
        const total = list.reduce((a, b) => a + b, 0);
        fc.pre(total >= 0.5);
        const shown = shownCents(list, total);
        expect(shown.reduce((a, b) => a + b, 0)).toBe(Math.round(total));
        expect(shown.every((cents) => Number.isInteger(cents) && cents >= 0)).toBe(true);
        for (const [at, cents] of shown.entries()) {
          expect(Math.abs(cents - (list[at] ?? 0))).toBeLessThan(1.5 + 1e-9);
        }
      }),
    );
  });
});

describe('what cannot be is refused', () => {
  test.each([
    ['no good bait', () => baitCost({ ...batch, good: 0 })],
    ['half a bait', () => baitCost({ ...batch, good: 0.5 })],
    ['a bait of nothing', () => baitCost({ ...batch, partMl: 0 })],
    ['less poured than came out', () => baitCost({ ...batch, pouredMl: 700 })],
    ['a negative price', () => baitCost({ ...batch, plastisolCentsPerMl: -1 })],
    ['a NaN price', () => baitCost({ ...batch, colourCentsPerMl: Number.NaN })],
    ['remelt worth more than new', () => baitCost({ ...batch, remeltValueShare: 1.5 })],
    ['negative time', () => baitCost({ ...batch, timeMin: -1 })],
    ['a total of no parts', () => shownCents([], 5)],
    ['a negative part', () => shownCents([-1, 6], 5)],
    ['a NaN total', () => shownCents([1], Number.NaN)],
  ])('%s', (_, run) => {
    expect(run).toThrow(RangeError);
  });
});
