import { type Counts, demandCount, demandCounts, total, wholeFrom } from '#calc/counts.ts';
import { finite, positive } from '#calc/range.ts';
import { lbeta, pnorm } from '#calc/special.ts';
import { designEffect, effectOf, type ShotCounts, shotPrior } from '#calc/yield.ts';

/** What may be said of the cold shots of a mould. Counts are good cavities of those recorded. */
export type ColdShots =
  | { kind: 'too-early'; warmUps: number; needed: number }
  | {
      kind: 'needs';
      shots: number;
      /** Every number of cold shots that together hold at least 90 % of the chance, lowest first. */
      likely: number[];
      cold: Share;
      warm: Share;
      warmUps: number;
    }
  | { kind: 'none-seen'; warmUps: number }
  | { kind: 'unclear'; warmUps: number };

/** A count out of a total. */
export interface Share {
  good: number;
  total: number;
}

/** One shot with the mould temperature it was poured at. */
export interface TemperedShot extends Share {
  mouldC: number;
}

/** The temperature that parts cold from warm shots best, with the log of its evidence. */
export interface ColdBelow {
  belowC: number;
  logEvidence: number;
}

const sayFrom = 0.9;
const leastWarmUps = 3;
const lastBin = 8;
const warmFromIndex = 4;
const leastWarmShots = 5;
const cutEveryC = 5;
const leastEachSide = 5;
const betterBy = 3;

/**
 * Chances that a mould needs N = 0, 1, ... nMax cold shots, from good and total cavities pooled by
 * the place of the shot after a warm-up; both are divided by D. A change-point between two
 * beta-binomial blocks (Carlin, Gelfand and Smith 1992), with the first block worse, never better.
 * Half the prior is on N = 0; an N without results on both sides gets no chance.
 * Throws a RangeError for impossible counts, D <= 0 or nMax < 0.
 */
export function warmupPosterior(good: Counts, totals: Counts, D: number, nMax: number): number[] {
  const logs = logEvidences(good, totals, D, nMax);
  const cuts = logs.filter((log) => log !== null).length - 1;
  const weights = logs.map((log, cold) => {
    if (log === null) return Number.NEGATIVE_INFINITY;
    return cold === 0 && cuts > 0 ? log + Math.log(cuts) : log;
  });
  const highest = Math.max(...weights);
  const shares = weights.map((weight) => Math.exp(weight - highest));
  const sum = total(shares);
  return shares.map((share) => share / sum);
}

/**
 * What may be said from the warm-ups logged, each a list of shots from cold on. Only an N after
 * which at least 3 warm-ups went on is considered. Throws a RangeError for impossible counts.
 */
export function coldShots(warmUps: readonly ShotCounts[]): ColdShots {
  const pooled = pooledWarmUps(warmUps);
  const nMax = furthestCandidate(warmUps);
  if (nMax < 1) return { kind: 'too-early', warmUps: warmUps.length, needed: leastWarmUps };
  const chances = warmupPosterior(pooled.x, pooled.n, warmEffect(warmUps), nMax);
  const [none = 0, ...some] = chances;
  if (none >= sayFrom) return { kind: 'none-seen', warmUps: warmUps.length };
  if (1 - none < sayFrom) return { kind: 'unclear', warmUps: warmUps.length };
  const shots = 1 + some.indexOf(Math.max(...some));
  return {
    kind: 'needs',
    shots,
    likely: likelySet(chances),
    cold: shareOf(pooled, 0, shots),
    warm: shareOf(pooled, shots),
    warmUps: warmUps.length,
  };
}

/** Good and recorded cavities by the place of the shot, the eighth and later together. */
export function pooledWarmUps(warmUps: readonly ShotCounts[]): { x: number[]; n: number[] } {
  const bins = Math.min(lastBin, Math.max(0, ...warmUps.map(({ n }) => n.length)));
  const pooled = { x: new Array<number>(bins).fill(0), n: new Array<number>(bins).fill(0) };
  for (const { x, n } of warmUps) {
    demandCounts(x, n);
    for (const [place, recorded] of n.entries()) {
      const bin = Math.min(place, lastBin - 1);
      pooled.x[bin] = (pooled.x[bin] ?? 0) + (x[place] ?? 0);
      pooled.n[bin] = (pooled.n[bin] ?? 0) + recorded;
    }
  }
  return pooled;
}

/**
 * The temperature below which shots come out cold, or null when the place of the shot explains
 * them as well: offered only where its log evidence beats that of the best N by 3 or more.
 * Cuts every 5 °C with at least 5 shots on each side. Throws a RangeError for impossible counts.
 */
export function coldBelow(
  shots: readonly TemperedShot[],
  warmUps: readonly ShotCounts[],
): ColdBelow | null {
  for (const shot of shots) demandCount(shot.good, shot.total);
  const pooled = pooledWarmUps(warmUps);
  const effect = warmEffect(warmUps);
  const byPlace = logEvidences(pooled.x, pooled.n, effect, lastBin);
  const bestByPlace = Math.max(...byPlace.map((log) => log ?? Number.NEGATIVE_INFINITY));
  let best: ColdBelow | null = null;
  const cold = { shots: 0, good: 0, total: 0 };
  const all = { good: 0, total: 0 };
  const bins = new Map<number, typeof cold>();
  for (const { mouldC, good, total: recorded } of shots) {
    // The first cut that this shot lies below.
    const cut = Math.floor(finite('mouldC', mouldC) / cutEveryC) + 1;
    const bin = bins.get(cut) ?? { shots: 0, good: 0, total: 0 };
    bins.set(cut, addedTo(bin, { shots: 1, good, total: recorded }));
    all.good += good;
    all.total += recorded;
  }
  for (const cut of [...bins.keys()].sort((a, b) => a - b)) {
    addedTo(cold, bins.get(cut) ?? cold);
    if (Math.min(cold.shots, shots.length - cold.shots) < leastEachSide) continue;
    const warm = {
      good: (all.good - cold.good) / effect,
      total: (all.total - cold.total) / effect,
    };
    const logEvidence = logSplit({ good: cold.good / effect, total: cold.total / effect }, warm);
    if (!best || logEvidence > best.logEvidence) best = { belowC: cut * cutEveryC, logEvidence };
  }
  return best && best.logEvidence - bestByPlace >= betterBy ? best : null;
}

function logEvidences(good: Counts, totals: Counts, D: number, nMax: number): (number | null)[] {
  demandCounts(good, totals);
  positive('D', D);
  wholeFrom(0, 'nMax', nMax);
  const all = { good: total(good) / D, total: total(totals) / D };
  const first = { good: 0, total: 0 };
  const logs: (number | null)[] = [logBlock(all)];
  for (let cold = 1; cold <= nMax; cold++) {
    first.good += (good[cold - 1] ?? 0) / D;
    first.total += (totals[cold - 1] ?? 0) / D;
    const rest = totals.slice(cold);
    if (first.total === 0 || total(rest) === 0) logs.push(null);
    else logs.push(logSplit(first, { good: total(good.slice(cold)) / D, total: total(rest) / D }));
  }
  return logs;
}

function logSplit(cold: Share, warm: Share): number {
  const coldMean = (1 + cold.good) / (2 + cold.total);
  const warmMean = (1 + warm.good) / (2 + warm.total);
  const variance =
    (coldMean * (1 - coldMean)) / (3 + cold.total) + (warmMean * (1 - warmMean)) / (3 + warm.total);
  const isWorse = 2 * pnorm((warmMean - coldMean) / Math.sqrt(variance));
  // Far out the chance underflows; a logarithm of the smallest double decides the same.
  return logBlock(cold) + logBlock(warm) + Math.log(Math.max(isWorse, Number.MIN_VALUE));
}

function logBlock({ good, total: all }: Share): number {
  return lbeta(1 + good, 1 + Math.max(0, all - good));
}

/** D by the fifth and later shots, which are warm; by belief alone while there are under five. */
function warmEffect(warmUps: readonly ShotCounts[]): number {
  const x = warmUps.flatMap((warmUp) => warmUp.x.slice(warmFromIndex));
  const n = warmUps.flatMap((warmUp) => warmUp.n.slice(warmFromIndex));
  const all = warmUps.flatMap((warmUp) => [...warmUp.n]);
  const isKnown = n.filter((recorded) => recorded > 0).length >= leastWarmShots;
  return effectOf(isKnown ? designEffect(x, n)[0] : shotPrior.rho0, all);
}

/** The largest N after which at least 3 warm-ups still recorded a shot. */
function furthestCandidate(warmUps: readonly ShotCounts[]): number {
  const lengths = warmUps.map(({ n }) => 1 + n.findLastIndex((recorded) => recorded > 0));
  lengths.sort((a, b) => b - a);
  return Math.min(lastBin - 1, (lengths[leastWarmUps - 1] ?? 0) - 1);
}

function likelySet(chances: readonly number[]): number[] {
  const order = chances.map((chance, shots) => ({ chance, shots }));
  order.sort((a, b) => b.chance - a.chance);
  const likely: number[] = [];
  let held = 0;
  for (const { chance, shots } of order) {
    if (held >= sayFrom) break;
    held += chance;
    likely.push(shots);
  }
  return likely.sort((a, b) => a - b);
}

function shareOf({ x, n }: ShotCounts, from: number, to?: number): Share {
  return { good: total(x.slice(from, to)), total: total(n.slice(from, to)) };
}

function addedTo<T extends { shots: number; good: number; total: number }>(to: T, more: T): T {
  to.shots += more.shots;
  to.good += more.good;
  to.total += more.total;
  return to;
}
