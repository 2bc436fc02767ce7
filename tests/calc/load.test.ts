import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  chosenInjector,
  fewestLoads,
  fillWindowSec,
  firstFitDecreasing,
  loadsBound,
  potMl,
  potMlForBaits,
} from '#calc/load.ts';
import { expectWithin } from '../hands/within.ts';

const sizes = fc.array(fc.integer({ min: 1, max: 100 }), { maxLength: 8 });

/** Fewest loads by trying every way to deal the sizes out. */
function fewestByTrying(list: readonly number[], cap: number): number {
  let best = list.length;
  const deal = (at: number, loads: readonly number[]): void => {
    const size = list[at];
    if (size === undefined) {
      best = Math.min(best, loads.length);
      return;
    }
    for (const [bin, load] of loads.entries()) {
      if (load + size <= cap) deal(at + 1, loads.with(bin, load + size));
    }
    deal(at + 1, [...loads, size]);
  };
  deal(0, []);
  return best;
}

describe('loads', () => {
  test('are the fewest there can be, and hold every size once', () => {
    fc.assert(
      fc.property(sizes, (list) => {
        const found = fewestLoads(list, 100);
        if (found === null) throw new Error('Every size fits.');
        expect(found.exact).toBe(true);
        expect(found.loads).toBe(fewestByTrying(list, 100));
        expect(found.bins).toHaveLength(found.loads);
        expect(found.bins.flat().sort()).toEqual(list.toSorted());
        for (const bin of found.bins) {
          expect(bin.reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(100);
        }
      }),
    );
  });

  test('lie between the bound and the quick way, which loses no size either', () => {
    fc.assert(
      fc.property(sizes, (list) => {
        const quick = firstFitDecreasing(list, 100);
        const loads = fewestLoads(list, 100)?.loads ?? Number.NaN;
        expect(quick.flat().sort()).toEqual(list.toSorted());
        expect(loads).toBeLessThanOrEqual(quick.length);
        expect(loads).toBeGreaterThanOrEqual(loadsBound(list, 100));
        // Dosa 2007: at most 11/9 of the fewest and 6/9 (from memory).
        expect(quick.length).toBeLessThanOrEqual((11 / 9) * loads + 6 / 9 + 1e-9);
      }),
    );
  });

  test('do not mind the order of the moulds', () => {
    fc.assert(
      fc.property(sizes, (list) => {
        expect(fewestLoads(list.toReversed(), 100)?.loads).toBe(fewestLoads(list, 100)?.loads);
      }),
    );
  });

  test('that were not searched to the end say so', () => {
    // The quick way needs 4 loads of 100, the bound 3: {55, 25, 20} {44, 31, 25} {40, 35, 25}.
    const list = [55, 44, 40, 35, 31, 25, 25, 25, 20];
    expect(fewestLoads(list, 100)).toMatchObject({ loads: 3, exact: true });
    expect(firstFitDecreasing(list, 100)).toHaveLength(4);
    expect(fewestLoads(list, 100, 0)).toMatchObject({ loads: 4, exact: false });
  });

  test.each([
    // By hand: {50, 33, 15} {41, 33, 22}; the quick way puts 50 with 41.
    [[50, 41, 33, 33, 22, 15], 2],
    // {44, 28, 22} {37, 36, 21}.
    [[44, 37, 36, 28, 22, 21], 2],
    // {55, 44} {46, 30, 24} {40, 31, 18}.
    [[55, 46, 44, 40, 31, 30, 24, 18], 3],
  ])('with gaps that nothing fills are found too: %j in %i', (list, loads) => {
    expect(firstFitDecreasing(list, 100)).toHaveLength(loads + 1);
    expect(fewestLoads(list, 100)).toMatchObject({ loads, exact: true });
  });

  test('may be full to the brim by fractions', () => {
    // 0.1 + 0.2 is not 0.3 to a computer.
    expect(fewestLoads([0.1, 0.2], 0.3)?.loads).toBe(1);
  });
});

describe('an injector', () => {
  const barrels = [
    { id: 'large', capacityMl: 240, deadMl: 10, boreMm: 38 },
    { id: 'small', capacityMl: 60, deadMl: 4, boreMm: 25 },
  ];
  const mould = (partMl: number) => [{ cavities: 1, partMl, sprueMl: 0 }];

  test('is the smallest that takes the load beside what stays in it', () => {
    // By hand: 56 mL / 1.1 = 50.909 mL.
    expect(chosenInjector(barrels, mould(50.9)).id).toBe('small');
    expect(chosenInjector(barrels, mould(50.92)).id).toBe('large');
    expect(chosenInjector(barrels, mould(56), { marginShare: 0 }).id).toBe('small');
    expect(chosenInjector([], mould(1))).toEqual({ id: null, loadMl: 1.1, strokeMm: null });
  });
});

describe('the time to fill', () => {
  const course = {
    volumeMl: 90,
    thinnestMm: 2,
    wallC: 40,
    pourC: 165,
    vents: { count: 8, widthMm: 5, heightMm: 0.1, lengthMm: 5 },
  };

  test('is four times as long for twice the thickness, eight times for half the vents gap', () => {
    // Conduction: time as thickness squared. Slot flow: as the gap cubed.
    const plain = fillWindowSec(course);
    expectWithin(
      fillWindowSec({ ...course, thinnestMm: 4 }).slowestSec,
      4 * plain.slowestSec,
      1e-9,
    );
    const clogged = fillWindowSec({ ...course, vents: { ...course.vents, heightMm: 0.05 } });
    expectWithin(clogged.fastestSec, 8 * plain.fastestSec, 1e-9);
    expect(clogged.possible).toBe(false);
  });

  test('has no end in a mould as hot as plastisol that flows, and none is left when cold', () => {
    expect(fillWindowSec({ ...course, wallC: 100 })).toMatchObject({
      slowestSec: Infinity,
      possible: true,
    });
    expect(fillWindowSec({ ...course, pourC: 95 })).toMatchObject({
      slowestSec: 0,
      possible: false,
    });
  });
});

describe('the pot', () => {
  const shots = [{ count: 6, cavities: 6, partMl: 9, sprueMl: 10 }];
  const losses = { injectorDeadMl: 10, potResidueMl: 15 };

  test('is filled as often as topping it up by hand takes', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 40, max: 900 }),
        (count, max) => {
          const work = [{ count, cavities: 4, partMl: 7, sprueMl: 8 }];
          const found = potMl({ ...losses, shots: work, potMaxMl: max });
          let left = found.heatMl - max;
          let fills = 1;
          for (; left > 0; fills++) left -= max - 15;
          expect(found.fills).toBe(fills);
          expect(found.heatMl).toBe(found.pourMl + 25);
        },
      ),
    );
  });

  test('loses nothing and does not mind the order of the moulds', () => {
    const two = [...shots, { count: 5, cavities: 8, partMl: 5, sprueMl: 12 }];
    const one = potMl({ ...losses, shots: two, purgeMl: 30 });
    expect(potMl({ ...losses, shots: two.toReversed(), purgeMl: 30 })).toEqual(one);
    // By hand: 6 x 64 + 5 x 52.
    expect(one.pourMl).toBe(644);
  });

  test('just filled twice is not filled three times', () => {
    // By hand: 1.6 + 2 x (65.3 - 1.6) = 129 mL, 2.0000000000000004 fills to a computer.
    const work = [{ count: 1, cavities: 1, partMl: 127.4, sprueMl: 0 }];
    const found = potMl({ injectorDeadMl: 0, potResidueMl: 1.6, shots: work, potMaxMl: 65.3 });
    expect(found).toEqual({ pourMl: 127.4, heatMl: 129, fills: 2 });
  });

  test('for baits takes whole shots, and not one more for a rounding', () => {
    const order = { partMl: 9, cavities: 6, sprueMl: 10, ...losses };
    // 42 / 0.35 / 6 is 20, but 20.000000000000004 to a computer; 84 / 0.7 / 6 likewise.
    expect(potMlForBaits({ ...order, baits: 42, yieldShare: 0.35 }).shots).toBe(20);
    expect(potMlForBaits({ ...order, baits: 84, yieldShare: 0.7 }).shots).toBe(20);
    expect(potMlForBaits({ ...order, baits: 1, yieldShare: 1 }).shots).toBe(1);
    expect(potMlForBaits({ ...order, baits: 7, yieldShare: 1 }).shots).toBe(2);
  });
});

describe('what cannot be is refused', () => {
  const mould = { cavities: 6, partMl: 9, sprueMl: 10 };
  const losses = { injectorDeadMl: 10, potResidueMl: 15 };
  const shots = [{ ...mould, count: 1 }];
  const course = {
    volumeMl: 90,
    thinnestMm: 2,
    wallC: 40,
    pourC: 165,
    vents: { count: 8, widthMm: 5, heightMm: 0.1, lengthMm: 5 },
  };
  test.each([
    ['a size of nothing', () => fewestLoads([1, 0], 5)],
    ['a NaN size', () => fewestLoads([Number.NaN], 5)],
    ['a load of nothing', () => fewestLoads([], 0)],
    ['a size above the load', () => firstFitDecreasing([6], 5)],
    ['a size above the load, in the bound', () => loadsBound([6], 5)],
    ['an empty line-up', () => chosenInjector([], [])],
    ['a negative part', () => chosenInjector([], [{ ...mould, partMl: -1 }])],
    [
      'an injector of nothing',
      () => chosenInjector([{ id: 'x', capacityMl: 0, deadMl: 0, boreMm: 5 }], [mould]),
    ],
    ['no vents', () => fillWindowSec({ ...course, vents: { ...course.vents, count: 0 } })],
    ['a mould of nothing', () => fillWindowSec({ ...course, volumeMl: 0 })],
    ['no push', () => fillWindowSec({ ...course, backPressurePa: 0 })],
    ['no shots', () => potMl({ ...losses, shots: [] })],
    ['half a shot', () => potMl({ ...losses, shots: [{ ...mould, count: 0.5 }] })],
    ['a NaN loss', () => potMl({ ...losses, shots, purgeMl: Number.NaN })],
    ['a pot of residue', () => potMl({ ...losses, shots, potMaxMl: 15 })],
    ['no baits', () => potMlForBaits({ ...mould, ...losses, baits: 0, yieldShare: 0.8 })],
    ['a yield of nothing', () => potMlForBaits({ ...mould, ...losses, baits: 5, yieldShare: 0 })],
    ['a yield above all', () => potMlForBaits({ ...mould, ...losses, baits: 5, yieldShare: 1.1 })],
  ])('%s', (_, run) => {
    expect(run).toThrow(RangeError);
  });
});
