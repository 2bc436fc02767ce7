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
  const column = columnOf(data, j);
  const unit = best.beta.map((_, k) => (k === column ? 1 : 0));
  const reach = z * Math.sqrt(solved(best.factor, unit)[column] ?? 0);
  return [profileLimit(data, best, column, -reach, z), profileLimit(data, best, column, reach, z)];
}

/**
 * Chance by luck alone of a coefficient j as far from zero: the penalised likelihood-ratio test
 * (Heinze and Schemper 2002). Throws a RangeError as `firth`, or for an unknown j.
 */
export function firthChance(X: Design, x: Counts, n: Counts, j: number): number {
  const data = dataOf(X, x, n);
  const best = climbed(data, null);
  const without = climbed(data, { j: columnOf(data, j), value: 0 });
  return 2 * pnorm(-rootFall(best, without));
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
  /** Per row the chance of a failure, and its complement without loss of digits. */
  mu: readonly number[];
  rest: readonly number[];
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
  let point = startAt(data, start);
  for (let turn = 0; turn < 200; turn++) {
    const { step, gain } = stepFrom(data, point, held);
    const next: Point | null = gain > 1e-20 ? higher(data, point, step) : null;
    if (!next) break;
    point = next;
  }
  return point;
}

function startAt(data: Data, beta: readonly number[]): Point {
  const point = pointAt(data, beta);
  if (!point) throw new RangeError('These factors cannot be told apart in these shots.');
  return point;
}

function pointAt({ rows, x, n, columns }: Data, beta: readonly number[]): Point | null {
  const mu: number[] = [];
  const rest: number[] = [];
  let logLik = 0;
  for (let i = 0; i < rows.length; i++) {
    const eta = dot(rows[i] ?? [], beta);
    const decay = Math.exp(-Math.abs(eta));
    const [rare, common] = [decay / (1 + decay), 1 / (1 + decay)];
    mu.push(eta > 0 ? common : rare);
    rest.push(eta > 0 ? rare : common);
    logLik += (x[i] ?? 0) * eta - (n[i] ?? 0) * (Math.max(0, eta) + Math.log1p(decay));
  }
  const weights = mu.map((chance, i) => (n[i] ?? 0) * chance * (rest[i] ?? 0));
  const factor = columns > 0 ? cholesky(information(rows, weights, columns)) : null;
  if (!factor || !Number.isFinite(logLik)) return null;
  return { beta, penalisedLogLik: logLik + logDeterminant(factor) / 2, factor, mu, rest };
}

/** The lower half of X' diag(weights) X. */
function information(rows: Design, weights: Counts, columns: number): number[][] {
  const sums = Array.from({ length: columns }, () => new Array<number>(columns).fill(0));
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? [];
    for (let k = 0; k < columns; k++) {
      const own = sums[k] ?? [];
      const share = (weights[i] ?? 0) * (row[k] ?? 0);
      for (let l = 0; l <= k; l++) own[l] = (own[l] ?? 0) + share * (row[l] ?? 0);
    }
  }
  return sums;
}

/**
 * A step up from a point, and the squared length by which the climb stops. Firth's score is that of
 * data in which every row has half its leverage added to failures and to non-failures, and with the
 * information of those data a step neither overshoots nor swings.
 */
function stepFrom(data: Data, point: Point, held: Held | null): { step: number[]; gain: number } {
  const { rows, x, n, columns } = data;
  const score = new Array<number>(columns).fill(0);
  const weights: number[] = [];
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] ?? [];
    const cases = n[i] ?? 0;
    const mu = point.mu[i] ?? 0;
    const spread = mu * (point.rest[i] ?? 0);
    const reach = forwardSolved(point.factor, row);
    const hat = cases * spread * dot(reach, reach);
    weights.push((cases + hat) * spread);
    const pull = (x[i] ?? 0) - cases * mu + hat * (0.5 - mu);
    for (let k = 0; k < columns; k++) score[k] = (score[k] ?? 0) + pull * (row[k] ?? 0);
  }
  const isFree = (_: unknown, k: number) => k !== held?.j;
  const free = information(rows, weights, columns).filter(isFree);
  const factor = cholesky(free.map((row) => row.filter(isFree)));
  if (!factor) return { step: score, gain: 0 };
  const freeScore = score.filter(isFree);
  const step = solved(factor, freeScore);
  const gain = dot(step, freeScore);
  return { step: held ? step.toSpliced(held.j, 0, 0) : step, gain };
}

/** The point a step away, the step halved until it is no lower; null when none is. */
function higher(data: Data, from: Point, step: readonly number[]): Point | null {
  // Two sums over many shots agree only to so many digits.
  const enough = from.penalisedLogLik - 1e-13 * (10 - from.penalisedLogLik);
  for (let share = 1; share > 1e-9; share /= 2) {
    const next = pointAt(
      data,
      from.beta.map((value, k) => value + share * (step[k] ?? 0)),
    );
    if (next && next.penalisedLogLik >= enough) return next;
  }
  return null;
}

/** Where the root of twice the fall reaches z: bracketed outwards, then by regula falsi. */
function profileLimit(data: Data, best: Point, j: number, reach: number, z: number): number {
  const at = best.beta[j] ?? 0;
  let point = best;
  const overshoot = (value: number) => {
    const from = best.beta.map((b, k) => b + ((point.beta[k] ?? 0) - b) * 0.5);
    point = climbed(data, { j, value }, from);
    return rootFall(best, point) - z;
  };
  let [near, nearOff] = [at, -z];
  let [far, farOff] = [at + reach, overshoot(at + reach)];
  for (let turn = 0; farOff < 0 && turn < 60; turn++) {
    [near, nearOff] = [far, farOff];
    far = at + 2 * (far - at);
    farOff = overshoot(far);
  }
  let wasFar = false;
  for (let turn = 0; turn < 60 && Math.abs(far - near) > 1e-10 * Math.abs(reach); turn++) {
    const middle = far - (farOff * (far - near)) / (farOff - nearOff);
    const off = overshoot(middle);
    if (Math.abs(off) < 1e-7) return middle;
    const isFar = off > 0;
    // An end that stays twice is halved, or it would stay for ever (Illinois rule).
    const share = turn > 0 && isFar === wasFar ? 0.5 : 1;
    if (isFar) [far, farOff, nearOff] = [middle, off, nearOff * share];
    else [near, nearOff, farOff] = [middle, off, farOff * share];
    wasFar = isFar;
  }
  return (near + far) / 2;
}

function rootFall(best: Point, other: Point): number {
  return Math.sqrt(Math.max(0, 2 * (best.penalisedLogLik - other.penalisedLogLik)));
}

function dot(a: Counts, b: Counts): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k] ?? 0) * (b[k] ?? 0);
  return sum;
}
