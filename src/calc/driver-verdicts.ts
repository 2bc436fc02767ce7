import { holm } from '#calc/cavities.ts';
import { cholesky } from '#calc/cholesky.ts';
import { demandCounts, total } from '#calc/counts.ts';
import {
  type DriverLog,
  type DriverVerdict,
  effectFor,
  effectiveOf,
  leastEffective,
  refusalInComplete,
  refusalOf,
  standardised,
} from '#calc/driver-refusals.ts';
import { type Design, firth, firthChance, firthProfileInterval } from '#calc/drivers.ts';
import { finite, positive } from '#calc/range.ts';
import type { ShotCounts } from '#calc/yield.ts';

/** What may be said of all of them together. */
export type Drivers =
  | { kind: 'nothing-to-explain' }
  | { kind: 'too-few-shots'; shots: number; needed: number }
  | {
      kind: 'judged';
      factors: DriverVerdict[];
      /** Shots in which everything needed was noted, and those left out. */
      shots: number;
      leftOut: number;
      sessions: number;
      /** True when there are too few failures to take the factors together. */
      isOneAtATime: boolean;
    };

const leastShots = 30;
const signLevel = 0.05;

/**
 * What short fills or another failure go with. Refused while there are under 30 complete shots or
 * nothing to explain; per factor while its values, sessions or effective failures are too few or it
 * moved together with another. Throws a RangeError for lists that do not fit each other.
 */
export function drivers(log: DriverLog): Drivers {
  demandLog(log);
  const used = keptShots(log, (s) => (log.n[s] ?? 0) > 0);
  if (total(used.n) > 0 && isOneSided(used)) return { kind: 'nothing-to-explain' };
  if (used.n.length < leastShots) {
    return { kind: 'too-few-shots', shots: used.n.length, needed: leastShots };
  }
  const refused = used.factors.map((_, j) => refusalOf(used, j));
  const open = refused.flatMap((refusal, j) => (refusal ? [] : [j]));
  const complete = keptShots(used, (s) =>
    open.every((j) => (used.factors[j]?.values[s] ?? null) !== null),
  );
  if (complete.n.length < leastShots) {
    return { kind: 'too-few-shots', shots: complete.n.length, needed: leastShots };
  }
  if (isOneSided(complete)) return { kind: 'nothing-to-explain' };
  const { verdicts, isOneAtATime } = judged(complete, open);
  return {
    kind: 'judged',
    factors: refused.map((refusal, j) => refusal ?? verdicts.get(j) ?? { kind: 'too-few-values' }),
    shots: complete.n.length,
    leftOut: log.n.length - complete.n.length,
    sessions: new Set(complete.session).size,
    isOneAtATime,
  };
}

function judged(log: DriverLog, open: readonly number[]) {
  const verdicts = new Map<number, DriverVerdict>();
  const rest = open.filter((j) => {
    const refusal = refusalInComplete(log, j);
    if (refusal) verdicts.set(j, refusal);
    return !refusal;
  });
  const isScarce = rest.some(
    (j) => effectiveOf(log, effectFor(log, j)) < leastEffective * rest.length,
  );
  const isOneAtATime = isScarce || !isSeparable(rest.map((j) => scoresOf(log, j).scores));
  const found = rest.map((j) => foundFor(log, j, isOneAtATime ? [j] : rest));
  const holmP = holm(found.map(({ chance }) => chance));
  for (const [at, { j, oddsRatio, lo, hi }] of found.entries()) {
    const corrected = holmP[at] ?? 1;
    const kind = corrected <= signLevel ? 'goes-with' : 'no-sign';
    verdicts.set(j, { kind, oddsRatio, lo, hi, holmP: corrected });
  }
  return { verdicts, isOneAtATime: isOneAtATime && rest.length > 1 };
}

function foundFor(log: DriverLog, j: number, among: readonly number[]) {
  const effect = effectFor(log, j);
  const columns = among.map((k) => scoresOf(log, k));
  const { X, x, n } = folded(
    log,
    effect,
    columns.map(({ scores }) => scores),
  );
  const column = 1 + among.indexOf(j);
  const [loBeta, hiBeta] = firthProfileInterval(X, x, n, column);
  const beta = firth(X, x, n).beta[column] ?? 0;
  const perStep = (log.factors[j]?.step ?? 1) / (columns[column - 1]?.sd ?? 1);
  const [oddsRatio, lo, hi] = [beta, loBeta, hiBeta].map(oddsOf(perStep));
  return {
    j,
    oddsRatio: oddsRatio ?? 1,
    lo: lo ?? 1,
    hi: hi ?? 1,
    chance: firthChance(X, x, n, column),
  };
}

/**
 * Shots of which all the same was noted, as one row: it changes neither the likelihood nor the
 * information, and a long log has far fewer kinds of shot than shots.
 */
function folded({ x, n }: ShotCounts, effect: number, columns: readonly (readonly number[])[]) {
  const rows = new Map<string, { row: number[]; x: number; n: number }>();
  for (const [s, c] of n.entries()) {
    const values = columns.map((scores) => scores[s] ?? 0);
    const key = values.join(' ');
    const kind = rows.get(key) ?? { row: [1, ...values], x: 0, n: 0 };
    kind.x += (x[s] ?? 0) / effect;
    kind.n += c / effect;
    rows.set(key, kind);
  }
  const kinds = [...rows.values()];
  const X: Design = kinds.map(({ row }) => row);
  return { X, x: kinds.map((kind) => kind.x), n: kinds.map((kind) => kind.n) };
}

/** An odds ratio stays a number however far a step reaches beyond the values seen. */
function oddsOf(perStep: number): (beta: number) => number {
  return (beta) => Math.exp(Math.min(700, Math.max(-700, beta * perStep)));
}

/** False where some columns together say what another says, though no two of them do. */
function isSeparable(columns: readonly (readonly number[])[]): boolean {
  const products = columns.map((a) =>
    columns.map((b) => total(a.map((value, s) => value * (b[s] ?? 0)))),
  );
  return cholesky(products) !== null;
}

function scoresOf(log: DriverLog, j: number): { scores: number[]; sd: number } {
  return standardised((log.factors[j]?.values ?? []).map((value) => value ?? 0));
}

function isOneSided({ x, n }: ShotCounts): boolean {
  const failures = total(x);
  return failures === 0 || failures === total(n);
}

function keptShots(log: DriverLog, isKept: (s: number) => boolean): DriverLog {
  const kept = <T>(list: readonly T[]) => list.filter((_, s) => isKept(s));
  return {
    x: kept(log.x),
    n: kept(log.n),
    session: kept(log.session),
    factors: log.factors.map((factor) => ({ ...factor, values: kept(factor.values) })),
  };
}

function demandLog({ x, n, session, factors }: DriverLog): void {
  demandCounts(x, n);
  const lists = [session, ...factors.map(({ values }) => values)];
  if (lists.some(({ length }) => length !== n.length)) {
    throw new RangeError('Every list must have one entry per shot.');
  }
  for (const { values, step } of factors) {
    positive('step', step);
    for (const value of values) if (value !== null) finite('value', value);
  }
}
