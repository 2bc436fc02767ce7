import { cholesky, forwardSolved, logDeterminant, solved, type Triangle } from '#calc/cholesky.ts';
import { type Counts, demandCounts, wholeFrom } from '#calc/counts.ts';
import { finite } from '#calc/range.ts';
import { pnorm } from '#calc/special.ts';
import { twoSidedZ } from '#calc/yield.ts';

/** One row per shot, one column per factor, the column of ones for the intercept included. */
export type Design = readonly Counts[];

/** Coefficients on the log-odds scale and the penalised log-likelihood they reach. */
export interface FirthFit {
  beta: number[];
  penalisedLogLik: number;
}

/**
 * Logistic regression of counts x of n by Firth's penalised likelihood (Firth 1993; Heinze and
 * Schemper 2002): finite also where a factor parts good from bad completely. Counts may be divided
 * by a design effect. Throws a RangeError for impossible counts and for columns that cannot be told
 * apart, also when there are no rows.
 */
export function firth(X: Design, x: Counts, n: Counts): FirthFit {
  const { beta, penalisedLogLik } = climbed(dataOf(X, x, n), null);
  return { beta: [...beta], penalisedLogLik };
}

/**
 * [lo, hi] for coefficient j: where twice the penalised log-likelihood, maximised over the others,
 * has fallen by the chi-squared quantile. Throws a RangeError as `firth`, or for an unknown j.
 */
export function firthProfileInterval(
  X: Design,
  x: Counts,
  n: Counts,
  j: number,
  conf = 0.95,
): [number, number] {
  const data = dataOf(X, x, n);
  const z = twoSidedZ(conf);
  const best = climbed(data, null);
  const at = best.beta[columnOf(data, j)] ?? 0;
  const unit = best.beta.map((_, k) => (k === j ? 1 : 0));
  const reach = z * Math.sqrt(solved(best.factor, unit)[j] ?? 0);
  return [profileLimit(data, best, j, at, -reach, z), profileLimit(data, best, j, at, reach, z)];
}

/**
 * Chance by luck alone of a coefficient j as far from zero: the penalised likelihood-ratio test
 * (Heinze and Schemper 2002). Throws a RangeError as `firth`, or for an unknown j.
 */
export function firthChance(X: Design, x: Counts, n: Counts, j: number): number {
  const data = dataOf(X, x, n);
  const best = climbed(data, null);
  const without = climbed(data, { j: columnOf(data, j), value: 0 });
  return 2 * pnorm(-signedFall(best, without));
}

interface Data {
  rows: Design;
  x: Counts;
  n: Counts;
  columns: number;
}

interface Point {
  beta: readonly number[];
  penalisedLogLik: number;
  factor: Triangle;
  information: readonly (readonly number[])[];
}

interface Held {
  j: number;
  value: number;
}

function dataOf(rows: Design, x: Counts, n: Counts): Data {
  demandCounts(x, n);
  if (rows.length !== n.length) {
    throw new RangeError(`There are ${rows.length} rows but ${n.length} totals.`);
  }
  const columns = rows[0]?.length ?? 0;
  for (const row of rows) {
    if (row.length !== columns) throw new RangeError('The rows differ in length.');
    for (const value of row) finite('X', value);
  }
  return { rows, x, n, columns };
}

function columnOf({ columns }: Data, j: number): number {
  if (wholeFrom(0, 'j', j) >= columns) throw new RangeError(`There is no column ${j}.`);
  return j;
}

/** The highest point, with coefficient j held where asked; `from` only saves steps. */
function climbed(data: Data, held: Held | null, from?: readonly number[]): Point {
  const start = from ? [...from] : new Array<number>(data.columns).fill(0);
  if (held) start[held.j] = held.value;
  let point = pointAt(data, start);
  if (!point) throw new RangeError('These factors cannot be told apart in these shots.');
  for (let turn = 0; turn < 200; turn++) {
    const { step, gain } = stepFrom(data, point, held);
    const next = gain > 1e-22 ? higher(data, point, step) : null;
    if (!next) break;
    point = next;
  }
  return point;
}

function pointAt({ rows, x, n, columns }: Data, beta: readonly number[]): Point | null {
  const information = Array.from({ length: columns }, () => new Array<number>(columns).fill(0));
  let logLik = 0;
  for (const [i, row] of rows.entries()) {
    const eta = dot(row, beta);
    const cases = n[i] ?? 0;
    logLik += (x[i] ?? 0) * eta - cases * (Math.max(0, eta) + Math.log1p(Math.exp(-Math.abs(eta))));
    const weight = cases * chanceOf(eta) * chanceOf(-eta);
    for (const [k, own] of information.entries()) {
      const share = weight * (row[k] ?? 0);
      for (let l = 0; l <= k; l++) own[l] = (own[l] ?? 0) + share * (row[l] ?? 0);
    }
  }
  const factor = columns > 0 ? cholesky(information) : null;
  if (!factor || !Number.isFinite(logLik)) return null;
  return { beta, penalisedLogLik: logLik + logDeterminant(factor) / 2, factor, information };
}

/** Firth's modified score step, and the squared length by which it stops. */
function stepFrom(data: Data, point: Point, held: Held | null): { step: number[]; gain: number } {
  const score = scoreAt(data, point);
  if (!held) return stepOf(point.factor, score);
  const isFree = (_: unknown, k: number) => k !== held.j;
  const free = point.information.map((row) => row.filter(isFree)).filter(isFree);
  const mirrored = free.map((row, k) =>
    row.map((value, l) => (l > k ? (free[l]?.[k] ?? 0) : value)),
  );
  const factor = cholesky(
    lowerOf(point.information)
      .filter(isFree)
      .map((row) => row.filter(isFree)),
  );
  if (!factor || mirrored.length === 0) return { step: score.map(() => 0), gain: 0 };
  const { step, gain } = stepOf(factor, score.filter(isFree));
  return { step: step.toSpliced(held.j, 0, 0), gain };
}
