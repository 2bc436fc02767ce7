import fc from 'fast-check';
import { expect, test } from 'vitest';
import { betaBinomial, likeCounts } from '#calc/beta-binomial.ts';
import {
  assurance,
  betaBinomTail,
  learntBelief,
  planShots,
  rhoTotal,
  shotsByMean,
  shotsPlan,
  typedBelief,
} from '#calc/shots-needed.ts';
import { designEffect } from '#calc/yield.ts';
import { gamma, seeded, shotChance, shotCounts, successes } from '../hands/seeded.ts';

const belief = fc.double({ min: 0.2, max: 60, noNaN: true });
const rho = fc.double({ min: 0, max: 0.6, noNaN: true });
const cavities = fc.integer({ min: 1, max: 12 });

test('a uniform belief makes every count as likely as another', () => {
  for (const share of betaBinomial(9, 1, 1)) expect(share).toBeCloseTo(0.1, 14);
});

test('a beta-binomial has the mean n a / (a + b) and the variance of its formula', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 60 }), belief, belief, (n, a, b) => {
      const shares = [...betaBinomial(n, a, b)];
      const mean = shares.reduce((sum, p, k) => sum + k * p, 0);
      const variance = shares.reduce((sum, p, k) => sum + (k - mean) ** 2 * p, 0);
      const p = a / (a + b);
      expect(mean).toBeCloseTo(n * p, 8);
      expect(variance).toBeCloseTo((n * p * (1 - p) * (a + b + n)) / (a + b + 1), 6);
    }),
  );
});

test('cavities wholly alike are all good or all bad; wholly independent ones are binomial', () => {
  const alike = likeCounts(4, 0.9, 1);
  expect(alike[4]).toBeCloseTo(0.9, 6);
  expect(alike[0]).toBeCloseTo(0.1, 6);
  expect(likeCounts(2, 0.9, 0)[1]).toBeCloseTo(0.18, 9);
});

test('sharp beliefs and long runs lose no digits', () => {
  // A chance known to be 1/2 in 10 tosses: 10 choose 5 over 1024.
  expect(betaBinomTail(10, 1e12, 1e12, 10)).toBeCloseTo(1 / 1024, 9);
  expect(betaBinomTail(40_000, 18, 2, 0)).toBe(1);
  expect(betaBinomTail(40_000, 18, 2, 40_001)).toBe(0);
});

test('more shots reach a wish more surely, a larger wish less', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 120 }),
      fc.integer({ min: 1, max: 25 }),
      cavities,
      belief,
      belief,
      rho,
      (K, S, m, a, b, alike) => {
        const sure = assurance(K, S, m, a, b, alike);
        expect(sure).toBeGreaterThanOrEqual(0);
        expect(sure).toBeLessThanOrEqual(1);
        expect(assurance(K, S + 1, m, a, b, alike)).toBeGreaterThanOrEqual(sure - 1e-9);
        expect(assurance(K + 1, S, m, a, b, alike)).toBeLessThanOrEqual(sure + 1e-12);
      },
    ),
  );
});

test('a plan is the fewest shots that are kept nine times in ten, and grows with the wish', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 150 }),
      cavities,
      fc.double({ min: 2, max: 40, noNaN: true }),
      belief,
      rho,
      fc.integer({ min: 0, max: 3 }),
      (K, m, a, b, alike, cold) => {
        const S = planShots(K, m, a, b, alike, cold, 3, 3);
        expect(assurance(K, S, m, a, b, alike, cold, 3, 3)).toBeGreaterThanOrEqual(0.9);
        expect(assurance(K, S - 1, m, a, b, alike, cold, 3, 3)).toBeLessThan(0.9);
        expect(planShots(K + 1, m, a, b, alike, cold, 3, 3)).toBeGreaterThanOrEqual(S);
      },
    ),
    { numRuns: 60 },
  );
});

// Method, A2.7: the binomial plans, recomputed by its author with scipy.
test.each([
  [50, 10, 6],
  [10, 1, 13],
])('with a yield known to be 0.9, %d baits from %d cavities take %d shots', (K, m, shots) => {
  expect(planShots(K, m, 9e9, 1e9, 0)).toBe(shots);
});

test('cold shots of the same yield that are no more alike change little, bad ones cost shots', () => {
  expect(planShots(100, 8, 18, 2, 0.2, 2, 1, 9)).toBeGreaterThan(planShots(100, 8, 18, 2, 0.2));
  expect(assurance(1, 1, 8, 18, 2, 0.2, 2, 0.01, 100)).toBeLessThan(0.01);
});

test('left out, null and 0 cold shots are one plan; cold shots without a belief are even odds', () => {
  const plain = planShots(100, 8, 18, 2, 0.2);
  expect(planShots(100, 8, 18, 2, 0.2, null, null, null)).toBe(plain);
  expect(planShots(100, 8, 18, 2, 0.2, 0, 6, 6)).toBe(plain);
  expect(assurance(60, 10, 8, 18, 2, 0.2, 2)).toBe(assurance(60, 10, 8, 18, 2, 0.2, 2, 1, 1));
});

test('no baits need no shots, and one bait of one cavity has no likeness to count', () => {
  expect(planShots(0, 8, 18, 2, 0.2)).toBe(0);
  expect(shotsPlan({ good: 0, cavities: 8, belief: { good: 9, bad: 1 }, rho: 0.2 })).toMatchObject({
    kind: 'plan',
    shots: 0,
    meanShots: 0,
  });
  expect(Number.isFinite(rhoTotal(1, 1, 9, 1, 0.2))).toBe(true);
  expect(Number.isFinite(rhoTotal(0, 8, 9, 1, 0.2))).toBe(true);
});

test('next to the plan stands what the average alone would say', () => {
  const wish = { good: 100, cavities: 8, belief: { good: 18, bad: 2 }, rho: 0.2 };
  expect(shotsPlan(wish)).toMatchObject({ kind: 'plan', shots: 16, meanShots: 14 });
  const cold = { shots: 2, belief: { good: 6, bad: 6 } };
  // Two cold shots give 8 on average, 92 / 7.2 = 12.8 warm ones the rest.
  expect(shotsByMean({ ...wish, cold })).toBe(15);
  expect(shotsByMean({ ...wish, good: 5, cold })).toBe(2);
});

test('a yield of none so far is too uncertain to plan, and says so without a long search', () => {
  const none = learntBelief([{ x: [0, 0, 0], n: [8, 8, 8] }]);
  expect(none.good).toBe(1);
  const verdict = shotsPlan({ good: 100, cavities: 8, belief: none, rho: 0.2 });
  expect(verdict.kind).toBe('too-uncertain');
  const typed = typedBelief(0);
  expect(shotsPlan({ good: 100_000, cavities: 8, belief: typed, rho: 0.2 }).kind).toBe(
    'too-uncertain',
  );
});

test('a typed yield weighs as much as five baits and is never certain', () => {
  expect(typedBelief(0.8).good).toBeCloseTo(4, 12);
  expect(typedBelief(0.8).bad).toBeCloseTo(1, 12);
  for (const share of [0, 1]) {
    const { good, bad } = typedBelief(share);
    expect(Math.min(good, bad)).toBeGreaterThan(0);
    expect(good + bad).toBeCloseTo(5, 12);
  }
});

test('what sessions teach is weighed by how much they differ', () => {
  const good = { x: [8, 8, 8, 8], n: [8, 8, 8, 8] };
  const poor = { x: [3, 4, 3, 4], n: [8, 8, 8, 8] };
  const alike = learntBelief([good]);
  const unlike = learntBelief([good, poor, good, poor]);
  expect(alike.bad).toBe(1);
  expect(unlike.good + unlike.bad).toBeLessThan(2 + 128 / 3);
});

test.each([
  ['a broken wish', () => planShots(1.5, 8, 18, 2, 0.2)],
  ['a wish below 0', () => planShots(-1, 8, 18, 2, 0.2)],
  ['no cavity', () => planShots(10, 0, 18, 2, 0.2)],
  ['a weight of 0', () => planShots(10, 8, 0, 2, 0.2)],
  ['not a number', () => assurance(10, 5, 8, Number.NaN, 2, 0.2)],
  ['a likeness above 1', () => assurance(10, 5, 8, 18, 2, 1.2)],
  ['cold shots below 0', () => assurance(10, 5, 8, 18, 2, 0.2, -1)],
  ['an unreachable plan', () => planShots(1000, 1, 0.01, 100, 0.2)],
  ['k that is no number', () => betaBinomTail(10, 1, 1, Number.NaN)],
  ['a typed yield above 1', () => typedBelief(90)],
])('%s is refused with a RangeError', (_, call) => {
  expect(call).toThrow(RangeError);
});

// The two-moment law against drawing what it stands for: a yield, a chance per shot, the cavities.
test('the chance of a plan is the share of drawn sessions that keep it', () => {
  const chance = seeded(48);
  const runs = 20_000;
  let kept = 0;
  for (let run = 0; run < runs; run++) {
    const good = gamma(chance, 9);
    const p = good / (good + gamma(chance, 1));
    let sum = 0;
    for (let s = 0; s < 10; s++) sum += successes(chance, 8, shotChance(chance, p, 0.1));
    if (sum >= 61) kept += 1;
  }
  // Three standard errors of 20,000 draws, and a hundredth for matching two moments only.
  expect(Math.abs(kept / runs - assurance(61, 10, 8, 9, 1, 0.1))).toBeLessThan(0.01 + 0.0062);
});

// Limits: 90% less two standard errors; the method saw 93 to 99%, and 57 to 75% by the average alone.
test.each([3, 10, 30])(
  'a plan from %d shots of history reaches its baits nine times in ten',
  (history) => {
    const chance = seeded(100 + history);
    const runs = 300;
    let reached = 0;
    let reachedByMean = 0;
    for (let run = 0; run < runs; run++) {
      const past = shotCounts(chance, history, 8, 0.85, 0.15);
      const wish = {
        good: 100,
        cavities: 8,
        belief: learntBelief([past]),
        rho: designEffect(past.x, past.n)[0],
      };
      const plan = shotsPlan(wish);
      if (plan.kind !== 'plan') continue;
      const goodIn = (shots: number) =>
        shotCounts(chance, shots, 8, 0.85, 0.15).x.reduce((sum, x) => sum + x, 0);
      if (goodIn(plan.shots) >= 100) reached += 1;
      if (goodIn(plan.meanShots) >= 100) reachedByMean += 1;
    }
    expect(reached / runs).toBeGreaterThan(0.9 - 0.035);
    expect(reachedByMean / runs).toBeLessThan(0.85);
  },
);
