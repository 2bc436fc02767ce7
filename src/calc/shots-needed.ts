import { betaBinomial, likeCounts } from '#calc/beta-binomial.ts';
import { total, wholeFrom } from '#calc/counts.ts';
import { positive, zeroToOne } from '#calc/range.ts';
import { effectAcross, type ShotCounts } from '#calc/yield.ts';

/** What is known of a yield, as a weight of good and a weight of bad results, both above 0. */
export interface YieldBelief {
  good: number;
  bad: number;
}

/** A number of shots that reaches the wish nine times in ten, or why there is none. */
export type ShotsPlan =
  | {
      kind: 'plan';
      shots: number;
      /** What dividing by the average yield alone would have said. */
      meanShots: number;
      assurance: number;
    }
  | { kind: 'too-uncertain'; meanShots: number };

/** What a plan is made from. Cold shots come first and have a belief of their own. */
export interface ShotsWish {
  /** Good baits wanted. */
  good: number;
  /** Working cavities of the mould. */
  cavities: number;
  belief: YieldBelief;
  /** How alike the cavities of one shot are. */
  rho: number;
  cold?: { shots: number; belief: YieldBelief };
}

/** A plan is kept this often. */
const kept = 0.9;
const capTimesMean = 5;
const typedWeight = 5;
/** A typed yield is never certain: even "all good" leaves one bait in a hundred in doubt. */
const leastTypedShare = 0.01;
/** No shop casts more in one go; beyond it the search ends. */
const mostBaits = 2_000_000;

/**
 * How alike two baits of S shots of m cavities are, once the unknown yield Beta(a, b) and the
 * likeness rho within a shot both count. Throws a RangeError for impossible arguments.
 */
export function rhoTotal(S: number, m: number, a: number, b: number, rho: number): number {
  wholeFrom(0, 'S', S);
  wholeFrom(1, 'm', m);
  positive('a', a);
  positive('b', b);
  const across = 1 / (a + b + 1);
  const within = across + (1 - across) * zeroToOne('rho', rho);
  const baits = S * m;
  if (baits <= 1) return across;
  return ((m - 1) * within + (baits - m) * across) / (baits - 1);
}

/**
 * Chance of at least k successes in n when their chance is Beta(a, b).
 * Throws a RangeError for impossible arguments.
 */
export function betaBinomTail(n: number, a: number, b: number, k: number): number {
  if (Number.isNaN(k)) throw new RangeError('k must be a number.');
  return upperSum(betaBinomial(n, a, b), k);
}

/**
 * Chance that S shots of m cavities give at least K good baits, when the yield is Beta(a, b) and
 * the first `cold` shots follow Beta(ac, bc), even odds where that is not given.
 * Throws a RangeError for impossible arguments.
 */
export function assurance(
  K: number,
  S: number,
  m: number,
  a: number,
  b: number,
  rho: number,
  cold: number | null = 0,
  ac?: number | null,
  bc?: number | null,
): number {
  wholeFrom(0, 'K', K);
  const coldShots = Math.min(S, wholeFrom(0, 'cold', cold ?? 0));
  const warm = goodCounts(S - coldShots, m, a, b, rho);
  if (coldShots === 0) return upperSum(warm, K);
  const chill = goodCounts(coldShots, m, ac ?? 1, bc ?? 1, rho);
  const reach = upperSums(warm);
  let sum = 0;
  for (const [good, share] of chill.entries()) {
    const missing = K - good;
    sum += share * (missing <= 0 ? 1 : (reach[missing] ?? 0));
  }
  return Math.min(1, sum);
}

/**
 * The fewest shots that give at least K good baits nine times in ten; arguments as `assurance`.
 * Throws a RangeError for impossible arguments and where two million baits would not do.
 */
export function planShots(
  K: number,
  m: number,
  a: number,
  b: number,
  rho: number,
  cold: number | null = 0,
  ac?: number | null,
  bc?: number | null,
): number {
  const isEnough = (S: number) => assurance(K, S, m, a, b, rho, cold, ac, bc) >= kept;
  if (isEnough(0)) return 0;
  let short = 0;
  let enough = Math.ceil(K / m);
  while (!isEnough(enough)) {
    short = enough;
    enough *= 2;
    if (enough * m > mostBaits) throw new RangeError('No plan of two million baits is enough.');
  }
  while (enough - short > 1) {
    const middle = Math.floor((short + enough) / 2);
    if (isEnough(middle)) enough = middle;
    else short = middle;
  }
  return enough;
}

/**
 * A plan to show, next to the count the average yield alone would give. A plan above five times
 * that count is not one: the yield is too uncertain, and some shots have to be logged first.
 * Throws a RangeError for impossible arguments.
 */
export function shotsPlan(wish: ShotsWish): ShotsPlan {
  const { good, cavities } = wish;
  const meanShots = shotsByMean(wish);
  const most = capTimesMean * meanShots;
  const terms = termsOf(wish);
  const isOutOfReach = most * cavities > mostBaits || assurance(good, most, ...terms) < kept;
  if (isOutOfReach) return { kind: 'too-uncertain', meanShots };
  const shots = planShots(good, ...terms);
  return { kind: 'plan', shots, meanShots, assurance: assurance(good, shots, ...terms) };
}

/** The shots that the average yields alone would ask for, cold shots first. */
export function shotsByMean({ good, cavities, belief, cold }: ShotsWish): number {
  wholeFrom(0, 'good', good);
  wholeFrom(1, 'cavities', cavities);
  if (good === 0) return 0;
  const fromCold = cold ? cavities * meanOf(cold.belief) : 0;
  const coldShots = cold?.shots ?? 0;
  if (good <= coldShots * fromCold) return Math.ceil(good / fromCold);
  return coldShots + Math.ceil((good - coldShots * fromCold) / (cavities * meanOf(belief)));
}

/**
 * What warm shots of the past teach of a yield: any share as likely as another before, each result
 * worth 1 / D. Throws a RangeError for impossible counts.
 */
export function learntBelief(sessions: readonly ShotCounts[]): YieldBelief {
  const effect = effectAcross(sessions);
  const good = total(sessions.map(({ x }) => total(x)));
  const all = total(sessions.map(({ n }) => total(n)));
  return { good: 1 + good / effect, bad: 1 + (all - good) / effect };
}

/** The belief behind a typed yield while there is no history: it weighs as much as five baits. */
export function typedBelief(yieldShare: number): YieldBelief {
  zeroToOne('yieldShare', yieldShare);
  const share = Math.min(1 - leastTypedShare, Math.max(leastTypedShare, yieldShare));
  return { good: typedWeight * share, bad: typedWeight * (1 - share) };
}

type Terms = [
  m: number,
  a: number,
  b: number,
  rho: number,
  cold?: number,
  ac?: number,
  bc?: number,
];

function termsOf({ cavities, belief, rho, cold }: ShotsWish): Terms {
  const warm: [number, number, number, number] = [cavities, belief.good, belief.bad, rho];
  return cold ? [...warm, cold.shots, cold.belief.good, cold.belief.bad] : warm;
}

function goodCounts(S: number, m: number, a: number, b: number, rho: number): Float64Array {
  const like = rhoTotal(S, m, a, b, rho);
  return likeCounts(S * m, a / (a + b), like);
}

function meanOf({ good, bad }: YieldBelief): number {
  return positive('good', good) / (good + positive('bad', bad));
}

function upperSum(shares: Float64Array, from: number): number {
  if (from <= 0) return 1;
  let sum = 0;
  for (let k = shares.length - 1; k >= from; k--) sum += shares[k] ?? 0;
  return Math.min(1, sum);
}

function upperSums(shares: Float64Array): Float64Array {
  const sums = new Float64Array(shares.length);
  let sum = 0;
  for (let k = shares.length - 1; k >= 0; k--) {
    sum += shares[k] ?? 0;
    sums[k] = sum;
  }
  return sums;
}
