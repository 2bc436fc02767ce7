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
import { endOf } from '#calc/steps.ts';
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
  return endOf(driverSteps(log));
}

/** The same in steps, so that a page can draw in between when the log is long. */
export function* driverSteps(log: DriverLog): Generator<void, Drivers> {
  demandLog(log);
  const used = keptShots(log, (s) => (log.n[s] ?? 0) > 0);
  yield;
  if (total(used.n) > 0 && isOneSided(used)) return { kind: 'nothing-to-explain' };
  if (used.n.length < leastShots) {
    return { kind: 'too-few-shots', shots: used.n.length, needed: leastShots };
  }
  const refused: (DriverVerdict | null)[] = [];
  for (const j of used.factors.keys()) {
    refused.push(refusalOf(used, j));
    yield;
  }
  const open = refused.flatMap((refusal, j) => (refusal ? [] : [j]));
  const complete = keptShots(used, (s) =>
    open.every((j) => (used.factors[j]?.values[s] ?? null) !== null),
  );
  yield;
  if (complete.n.length < leastShots) {
    return { kind: 'too-few-shots', shots: complete.n.length, needed: leastShots };
  }
  if (isOneSided(complete)) return { kind: 'nothing-to-explain' };
  const { verdicts, isOneAtATime } = yield* judgedSteps(complete, open);
  return {
    kind: 'judged',
    factors: refused.map((refusal, j) => refusal ?? verdicts.get(j) ?? { kind: 'too-few-values' }),
    shots: complete.n.length,
    leftOut: log.n.length - complete.n.length,
    sessions: new Set(complete.session).size,
    isOneAtATime,
  };
}

function* judgedSteps(log: DriverLog, open: readonly number[]) {
  const verdicts = new Map<number, DriverVerdict>();
  const effects = new Map<number, number>();
  const scores = new Map<number, Scores>();
  for (const j of open) {
    effects.set(j, knownEffect(log, j, effects) ?? effectFor(log, j));
    scores.set(j, scoresOf(log, j));
    yield;
  }
  const rest = open.filter((j) => {
    const refusal = refusalInComplete(log, j, effects.get(j));
    if (refusal) verdicts.set(j, refusal);
    return !refusal;
  });
  const columnOf = (j: number) => scores.get(j) ?? scoresOf(log, j);
  const isScarce = rest.some(
    (j) => effectiveOf(log, effects.get(j) ?? 1) < leastEffective * rest.length,
  );
  const isOneAtATime = isScarce || !isSeparable(rest.map((j) => columnOf(j).scores));
  yield;
  const found: ReturnType<typeof foundFor>[] = [];
  for (const j of rest) {
    const among = (isOneAtATime ? [j] : rest).map((k) => ({ k, ...columnOf(k) }));
    found.push(foundFor(log, j, among, effects.get(j) ?? 1));
    yield;
  }
  const holmP = holm(found.map(({ chance }) => chance));
  for (const [at, { j, oddsRatio, lo, hi }] of found.entries()) {
    const corrected = holmP[at] ?? 1;
    const kind = corrected <= signLevel ? 'goes-with' : 'no-sign';
    verdicts.set(j, { kind, oddsRatio, lo, hi, holmP: corrected });
  }
  return { verdicts, isOneAtATime: isOneAtATime && rest.length > 1 };
}

/** D is one for all factors that vary within a session, and one for those that do not. */
function knownEffect(log: DriverLog, j: number, known: ReadonlyMap<number, number>) {
  const isSame = (k: number) => log.factors[k]?.isPerSession === log.factors[j]?.isPerSession;
  return [...known].find(([k]) => isSame(k))?.[1];
}

interface Scores {
  scores: number[];
  sd: number;
}

function foundFor(
  log: DriverLog,
  j: number,
  columns: readonly (Scores & { k: number })[],
  effect: number,
) {
  const { X, x, n } = folded(
    log,
    effect,
    columns.map(({ scores }) => scores),
  );
  const at = columns.findIndex(({ k }) => k === j);
  const column = 1 + at;
  const [loBeta, hiBeta] = firthProfileInterval(X, x, n, column);
  const beta = firth(X, x, n).beta[column] ?? 0;
  const perStep = (log.factors[j]?.step ?? 1) / (columns[at]?.sd ?? 1);
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

function scoresOf(log: DriverLog, j: number): Scores {
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
