import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type ColdShots,
  coldBelow,
  coldShots,
  pooledWarmUps,
  warmupPosterior,
} from '#calc/cold-shots.ts';
import { type Chance, seeded, shotChance, successes } from '../hands/seeded.ts';

const bins = fc
  .array(
    fc
      .integer({ min: 0, max: 40 })
      .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n))),
    { maxLength: 10 },
  )
  .map((pairs) => ({ good: pairs.map(([g]) => g), total: pairs.map(([, n]) => n) }));

const effect = fc.double({ min: 0.5, max: 20, noNaN: true });

test('the chances of all numbers of cold shots add up to 1', () => {
  fc.assert(
    fc.property(bins, effect, fc.integer({ min: 0, max: 12 }), ({ good, total }, D, nMax) => {
      const chances = warmupPosterior(good, total, D, nMax);
      expect(chances.length).toBe(nMax + 1);
      expect(chances.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
      expect(chances.every((p) => p >= 0)).toBe(true);
    }),
  );
});

test('counts and D multiplied alike change nothing', () => {
  fc.assert(
    fc.property(
      bins,
      effect,
      fc.double({ min: 0.1, max: 10, noNaN: true }),
      ({ good, total }, D, t) => {
        const scaled = warmupPosterior(
          good.map((g) => g * t),
          total.map((n) => n * t),
          D * t,
          6,
        );
        for (const [cold, chance] of warmupPosterior(good, total, D, 6).entries()) {
          expect(Math.abs((scaled[cold] ?? Number.NaN) - chance)).toBeLessThan(1e-9);
        }
      },
    ),
  );
});

test('a number of cold shots with nothing logged after it has no chance', () => {
  expect(warmupPosterior([2, 8], [8, 8], 1, 4).slice(2)).toEqual([0, 0, 0]);
  expect(warmupPosterior([2, 8, 0], [8, 8, 0], 1, 4).slice(2)).toEqual([0, 0, 0]);
  expect(warmupPosterior([5], [8], 1, 3)).toEqual([1, 0, 0, 0]);
  expect(warmupPosterior([], [], 1, 2)).toEqual([1, 0, 0]);
});

test('shots that begin better than they go on are never called cold', () => {
  const [none = 0] = warmupPosterior([24, 24, 12, 12, 12, 12], [24, 24, 24, 24, 24, 24], 1, 4);
  expect(none).toBeGreaterThan(0.9);
});

test('the eighth and later shots of all warm-ups share one bin', () => {
  const long = { x: [1, 2, 3, 4, 5, 6, 7, 8, 8, 8], n: new Array<number>(10).fill(8) };
  const short = { x: [0, 1], n: [8, 8] };
  expect(pooledWarmUps([long, short])).toEqual({
    x: [1, 3, 3, 4, 5, 6, 7, 24],
    n: [16, 16, 8, 8, 8, 8, 8, 24],
  });
});

const coldStart = { x: [3, 5, 8, 8, 8, 7, 8, 8], n: new Array<number>(8).fill(8) };
/** A start without cold shots: one bad bait now and then, in a place that moves on. */
const even = (start: number) => ({
  x: Array.from({ length: 8 }, (_, s) => ((s + start) % 4 === 0 ? 7 : 8)),
  n: new Array<number>(8).fill(8),
});
const evenStarts = (count: number) => Array.from({ length: count }, (_, start) => even(start));

test('one or two warm-ups never claim anything', () => {
  expect(coldShots([])).toEqual({ kind: 'too-early', warmUps: 0, needed: 3 });
  expect(coldShots([coldStart, coldStart])).toEqual({ kind: 'too-early', warmUps: 2, needed: 3 });
});

test('three warm-ups of a single shot each say nothing of what comes after', () => {
  const single = { x: [3], n: [8] };
  expect(coldShots([single, single, single]).kind).toBe('too-early');
});

test('three clearly cold starts tell how many shots and how good both parts were', () => {
  const verdict = coldShots([coldStart, coldStart, coldStart]);
  expect(verdict).toMatchObject({
    kind: 'needs',
    shots: 2,
    cold: { good: 24, total: 48 },
    warm: { good: 141, total: 144 },
    warmUps: 3,
  });
  if (verdict.kind === 'needs') expect(verdict.likely).toContain(2);
});

test('a score of even starts show no cold shots, three with a worse first shot decide nothing', () => {
  expect(coldShots(evenStarts(20)).kind).toBe('none-seen');
  const doubtful = { x: [7, 8, 8, 8, 8, 8], n: [8, 8, 8, 8, 8, 8] };
  expect(coldShots([doubtful, doubtful, doubtful]).kind).toBe('unclear');
});

test('where temperature explains the cold shots and their place does not, the border is offered', () => {
  const tempered = Array.from({ length: 60 }, (_, s) => {
    const mouldC = 30 + ((s * 7) % 30);
    return { mouldC, good: mouldC < 45 ? 3 : 8, total: 8 };
  });
  const warmUps = [0, 1, 2, 3, 4, 5].map((w) => {
    const own = tempered.slice(w * 10, w * 10 + 10);
    return { x: own.map(({ good }) => good), n: own.map(({ total }) => total) };
  });
  expect(coldBelow(tempered, warmUps)?.belowC).toBe(45);
});

test('where the place explains as much, or one side is thin, no border is offered', () => {
  const course = [25, 32, 41, 52, 56, 58, 59, 60];
  const tempered = [coldStart, coldStart, coldStart].flatMap(({ x, n }) =>
    x.map((good, s) => ({ mouldC: course[s] ?? 60, good, total: n[s] ?? 0 })),
  );
  expect(coldBelow(tempered, [coldStart, coldStart, coldStart])).toBeNull();
  expect(coldBelow(tempered.slice(0, 6), [coldStart])).toBeNull();
  expect(coldBelow([], [])).toBeNull();
});

test.each([
  ['lists of unequal length', () => warmupPosterior([1], [1, 2], 1, 2)],
  ['more good than there are', () => warmupPosterior([3], [2], 1, 2)],
  ['a negative count', () => warmupPosterior([-1], [2], 1, 2)],
  ['D of 0', () => warmupPosterior([1], [2], 0, 2)],
  ['a broken number of shots', () => warmupPosterior([1], [2], 1, 1.5)],
  ['not a number', () => coldShots([{ x: [Number.NaN], n: [8] }])],
  ['a temperature that is none', () => coldBelow([{ mouldC: Number.NaN, good: 1, total: 1 }], [])],
])('%s is refused with a RangeError', (_, call) => {
  expect(call).toThrow(RangeError);
});

interface WarmUpCourse {
  warmUps: number;
  cold: number;
  coldGood: number;
  warmGood: number;
  rho: number;
}

function verdicts(seed: number, runs: number, course: WarmUpCourse): ColdShots[] {
  const chance = seeded(seed);
  return Array.from({ length: runs }, () =>
    coldShots(Array.from({ length: course.warmUps }, () => warmUp(chance, course))),
  );
}

/** Ten shots of ten cavities from cold on. */
function warmUp(chance: Chance, { cold, coldGood, warmGood, rho }: WarmUpCourse) {
  const n = new Array<number>(10).fill(10);
  const x = n.map((c, s) =>
    successes(chance, c, shotChance(chance, s < cold ? coldGood : warmGood, rho)),
  );
  return { x, n };
}

const shareOf = (all: readonly ColdShots[], is: (verdict: ColdShots) => boolean) =>
  all.filter(is).length / all.length;

// Limit: 5%; the method saw 0 to 3% false claims.
test.each([
  [3, 0.05],
  [3, 0.2],
  [10, 0.2],
])(
  'of moulds without cold shots, %d warm-ups with likeness %d call at most 5 of 100 cold',
  (warmUps, rho) => {
    const found = verdicts(31 + warmUps, 400, {
      warmUps,
      cold: 0,
      coldGood: 0.9,
      warmGood: 0.9,
      rho,
    });
    expect(shareOf(found, ({ kind }) => kind === 'needs')).toBeLessThan(0.05);
  },
);

// Limits: found in 84% after 3 warm-ups and 97% after 5, N right in 89% and 95% of those; less 6 points.
test.each([
  [3, 0.78, 0.83],
  [5, 0.91, 0.89],
])(
  'after %d warm-ups two cold shots are found in at least %d, and as two in %d of those',
  (warmUps, least, right) => {
    const found = verdicts(97, 300, { warmUps, cold: 2, coldGood: 0.6, warmGood: 0.9, rho: 0.05 });
    const claims = found.filter(({ kind }) => kind === 'needs');
    expect(claims.length / found.length).toBeGreaterThan(least);
    expect(shareOf(claims, (v) => v.kind === 'needs' && v.shots === 2)).toBeGreaterThan(right);
    expect(shareOf(claims, (v) => v.kind === 'needs' && v.likely.includes(2))).toBeGreaterThan(0.9);
  },
);
