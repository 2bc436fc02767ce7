import { likeCounts } from '#calc/beta-binomial.ts';
import { betweenZeroAndOne, type Counts, demandCounts, total, wholeFrom } from '#calc/counts.ts';
import { positive } from '#calc/range.ts';
import { designEffect } from '#calc/yield.ts';

/** A value for every shot, or one for all. */
export type PerShot = number | Counts;

/** What is normal for a mould, or why that cannot be said yet. */
export type DriftBaseline =
  | { kind: 'ready'; normal: Normal; shots: number; failures: number }
  | {
      kind: 'too-few-shots' | 'too-few-failures';
      shots: number;
      failures: number;
      needed: number;
      /** Good cavities before the first failure, for a mould that has had hardly any. */
      goodBeforeFirst: number;
    };

/** The defect share of a mould in normal times, and how alike the cavities of a shot are. */
export interface Normal {
  p0: number;
  rho: number;
}

/** Whether a mould has drifted, counted from the shots handed in. */
export type Drift =
  | { kind: 'as-usual'; above: number; below: number }
  | {
      kind: 'above' | 'below';
      /** The shot at which the line was reached. */
      alarmAt: number;
      /** The shot from which things probably ran differently. */
      sinceShot: number;
      failures: number;
      total: number;
    };

/** A worsening and an easing that are watched for: the odds of a defect doubled, and halved. */
export const worseOdds = 2;
export const betterOdds = 0.5;
/** A chart that reaches this raises the alarm. */
export const alarmLine = 4;

const leastShots = 30;
const leastFailures = 10;
const rareBelow = 0.00135;
const states = 400;
/** As good as never; beyond it the sums would only show rounding. */
const longestRun = 1e12;

/**
 * After every shot, the evidence that the odds of a defect have changed by `oddsRatio` from p0: the
 * log-likelihood-ratio cumulative sum (Steiner et al. 2000), counts divided by D, never below 0.
 * p0 and D may be given per shot, so that different moulds can share a chart.
 * Throws a RangeError for impossible counts, p0 outside (0, 1), D or oddsRatio not above 0.
 */
export function llrCusum(
  x: Counts,
  n: Counts,
  p0: PerShot,
  oddsRatio: number,
  D: PerShot,
): number[] {
  demandCounts(x, n);
  const chart: number[] = [];
  let level = 0;
  for (const [s, c] of n.entries()) {
    const weights = weightsOf(valueAt(p0, s), oddsRatio);
    const failed = x[s] ?? 0;
    const gain = failed * weights.failed + (c - failed) * weights.good;
    level = Math.max(0, level + gain / positive('D', valueAt(D, s)));
    chart.push(level);
  }
  return chart;
}

/**
 * Shots until the chart reaches h on average, when shots of m cavities, alike by rho, really fail
 * with chance p: a Markov chain on the level of the chart (Brook and Evans 1972), at most 1e12.
 * Throws a RangeError unless p and p0 lie inside (0, 1) and the rest is positive.
 */
export function llrAverageRun(
  m: number,
  p: number,
  p0: number,
  oddsRatio: number,
  D: number,
  rho: number,
  h: number,
): number {
  const shares = likeCounts(wholeFrom(1, 'm', m), p, rho);
  const weights = weightsOf(p0, oddsRatio);
  const width = positive('h', h) / (states - 0.5);
  const rows = Array.from({ length: states }, (_, from) => {
    const row = new Float64Array(states + 1);
    for (const [failed, share] of shares.entries()) {
      const gain = (failed * weights.failed + (m - failed) * weights.good) / positive('D', D);
      const to = Math.max(0, Math.round(from + gain / width));
      if (to < states) row[to] = (row[to] ?? 0) - share;
    }
    row[from] = (row[from] ?? 0) + 1;
    row[states] = 1;
    return row;
  });
  return Math.min(longestRun, firstUnknown(rows));
}

/**
 * [centre, upper, lower] of a chart of shares in samples of n: three standard errors either side of
 * the pooled share, kept in 0 to 1 (NIST e-Handbook 6.3.3.2), widened by D.
 * Throws a RangeError for counts that do not fit n or n, D not above 0.
 */
export function pLimits(x: Counts, n: number, D = 1): [number, number, number] {
  positive('n', n);
  demandCounts(
    x,
    x.map(() => n),
  );
  const centre = x.length === 0 ? 0 : total(x) / (n * x.length);
  const reach = 3 * Math.sqrt((positive('D', D) * centre * (1 - centre)) / n);
  return [centre, Math.min(1, centre + reach), Math.max(0, centre - reach)];
}

/** True for a single shot with more failures than 1 normal shot in 740 would have. */
export function isRareShot(failed: number, cavities: number, { p0, rho }: Normal): boolean {
  demandCounts([failed], [cavities]);
  const shares = likeCounts(wholeFrom(0, 'cavities', cavities), p0, rho);
  return total(Array.from(shares.slice(Math.ceil(failed)))) < rareBelow;
}

/**
 * What is normal for one mould by warm shots of a window without drift: refused under 30 shots or
 * under 10 failures. Throws a RangeError for impossible counts.
 */
export function driftBaseline(x: Counts, n: Counts): DriftBaseline {
  demandCounts(x, n);
  const shots = n.filter((c) => c > 0).length;
  const failures = total(x);
  const first = x.findIndex((failed) => failed > 0);
  const facts = { shots, failures, goodBeforeFirst: total(first < 0 ? n : n.slice(0, first)) };
  if (shots < leastShots) return { kind: 'too-few-shots', needed: leastShots, ...facts };
  if (failures < leastFailures) {
    return { kind: 'too-few-failures', needed: leastFailures, ...facts };
  }
  const p0 = (failures + 0.5) / (total(n) + 1);
  return { kind: 'ready', normal: { p0, rho: designEffect(x, n)[0] }, shots, failures };
}

/**
 * Whether the warm shots since the last look run above or below normal; the first chart to reach
 * the line decides. The change is put after the last shot at which that chart stood at 0.
 * Throws a RangeError for impossible counts or p0 outside (0, 1).
 */
export function driftSince(x: Counts, n: Counts, { p0, rho }: Normal): Drift {
  const effects = n.map((c) => Math.max(1, 1 + (c - 1) * rho));
  const worse = llrCusum(x, n, p0, worseOdds, effects);
  const better = llrCusum(x, n, p0, betterOdds, effects);
  const alarmAt = n.findIndex((_, s) => Math.max(worse[s] ?? 0, better[s] ?? 0) >= alarmLine);
  if (alarmAt < 0) return { kind: 'as-usual', above: worse.at(-1) ?? 0, below: better.at(-1) ?? 0 };
  const isWorse = (worse[alarmAt] ?? 0) >= alarmLine;
  const chart = (isWorse ? worse : better).slice(0, alarmAt);
  const sinceShot = 1 + chart.lastIndexOf(0);
  return {
    kind: isWorse ? 'above' : 'below',
    alarmAt,
    sinceShot,
    failures: total(x.slice(sinceShot)),
    total: total(n.slice(sinceShot)),
  };
}

function weightsOf(p0: number, oddsRatio: number): { failed: number; good: number } {
  betweenZeroAndOne('p0', p0);
  const scale = 1 - p0 + positive('oddsRatio', oddsRatio) * p0;
  return { failed: Math.log(oddsRatio / scale), good: -Math.log(scale) };
}

function valueAt(values: PerShot, s: number): number {
  return typeof values === 'number' ? values : (values[s] ?? Number.NaN);
}

/** The first unknown of a system of equations, its right side as last column, by elimination. */
function firstUnknown(rows: Float64Array[]): number {
  for (let k = rows.length - 1; k > 0; k--) {
    const pivot = rows[k] ?? new Float64Array();
    for (let i = 0; i < k; i++) {
      const row = rows[i] ?? pivot;
      const factor = (row[k] ?? 0) / (pivot[k] ?? 1);
      if (factor === 0) continue;
      for (let j = 0; j < k; j++) row[j] = (row[j] ?? 0) - factor * (pivot[j] ?? 0);
      row[rows.length] = (row[rows.length] ?? 0) - factor * (pivot[rows.length] ?? 0);
    }
  }
  const first = rows[0] ?? new Float64Array();
  return (first[rows.length] ?? 0) / Math.max(Number.MIN_VALUE, first[0] ?? 1);
}
