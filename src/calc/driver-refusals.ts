import { type Counts, total } from '#calc/counts.ts';
import { designEffect, effectAcross, type ShotCounts } from '#calc/yield.ts';

/** Something that may go with failures: one value per shot, null where it was not noted. */
export interface Factor {
  values: readonly (number | null)[];
  /** True for what stays as it is through a session, such as the injector. */
  isPerSession: boolean;
  /** The step in which its odds ratio is told, such as 10 for degrees; 1 for a yes or no. */
  step: number;
}

/** Failures x of n per shot, the session each shot belongs to, and what was noted beside them. */
export interface DriverLog extends ShotCounts {
  session: readonly (number | string)[];
  factors: readonly Factor[];
}

/** What may be said of one factor. It goes with failures; that it causes them is never said. */
export type DriverVerdict =
  | {
      kind: 'goes-with' | 'no-sign';
      /** Odds of a failure per step, with its 95 % interval. */
      oddsRatio: number;
      lo: number;
      hi: number;
      /** Chance by luck alone, corrected for the factors looked at. */
      holmP: number;
    }
  | { kind: 'too-few-values' }
  | { kind: 'too-few-sessions'; sessions: number; needed: number }
  | { kind: 'tangled'; with: number[] }
  | { kind: 'too-few-failures'; effective: number; needed: number };

/** Independent failures, and non-failures, that one factor needs. */
export const leastEffective = 10;
const leastSessions = 8;
const leastSessionsEachSide = 3;
const leastValues = 3;
const leastInGroup = 5;
const tangledAbove = 0.8;

/** Why a factor cannot be judged by its own values, its sessions or its company; null if it can. */
export function refusalOf(log: DriverLog, j: number): DriverVerdict | null {
  const factor = log.factors[j];
  if (!factor) return { kind: 'too-few-values' };
  const refusal = tooFewValues(factor) ?? tooFewSessions(log, factor);
  if (refusal) return refusal;
  const tangled = log.factors.flatMap((other, k) =>
    k !== j && Math.abs(correlation(factor.values, other.values)) > tangledAbove ? [k] : [],
  );
  return tangled.length > 0 ? { kind: 'tangled', with: tangled } : null;
}

/** The same among complete shots, where a factor may have lost its spread or failures may lack. */
export function refusalInComplete(
  log: DriverLog,
  j: number,
  effect = effectFor(log, j),
): DriverVerdict | null {
  const factor = log.factors[j];
  if (!factor) return { kind: 'too-few-values' };
  const refusal = tooFewValues(factor) ?? tooFewSessions(log, factor);
  if (refusal) return refusal;
  const effective = effectiveOf(log, effect);
  return effective < leastEffective
    ? { kind: 'too-few-failures', effective, needed: leastEffective }
    : null;
}

/** D for a factor: what stays through a session must also bear how the sessions differ. */
export function effectFor(log: DriverLog, j: number): number {
  if (!log.factors[j]?.isPerSession) return designEffect(log.x, log.n)[1];
  const sessions = new Map<number | string, { x: number[]; n: number[] }>();
  for (const [s, session] of log.session.entries()) {
    const own = sessions.get(session) ?? { x: [], n: [] };
    own.x.push(log.x[s] ?? 0);
    own.n.push(log.n[s] ?? 0);
    sessions.set(session, own);
  }
  return effectAcross([...sessions.values()]);
}

/** The rarer of failures and non-failures, as so many independent ones. */
export function effectiveOf({ x, n }: ShotCounts, effect: number): number {
  return Math.min(total(x), total(n) - total(x)) / effect;
}

/** Values in standard deviations from their mean, and that deviation. */
export function standardised(values: Counts): { scores: number[]; sd: number } {
  const mean = total(values) / values.length;
  const sd = Math.sqrt(total(values.map((value) => (value - mean) ** 2)) / values.length);
  return { scores: values.map((value) => (value - mean) / sd), sd };
}

function tooFewValues({ values }: Factor): DriverVerdict | null {
  const counts = new Map<number, number>();
  for (const value of values) {
    if (value !== null) counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  if (counts.size >= leastValues) return null;
  const isEnough = counts.size === 2 && Math.min(...counts.values()) >= leastInGroup;
  return isEnough ? null : { kind: 'too-few-values' };
}

function tooFewSessions(log: DriverLog, factor: Factor): DriverVerdict | null {
  if (!factor.isPerSession) return null;
  const bySession = new Map<number | string, number>();
  for (const [s, value] of factor.values.entries()) {
    const session = log.session[s];
    if (value !== null && session !== undefined) bySession.set(session, value);
  }
  const values = [...bySession.values()];
  const middle = (Math.min(...values) + Math.max(...values)) / 2;
  const below = values.filter((value) => value < middle).length;
  const above = values.filter((value) => value > middle).length;
  if (values.length >= leastSessions && Math.min(below, above) >= leastSessionsEachSide)
    return null;
  return { kind: 'too-few-sessions', sessions: values.length, needed: leastSessions };
}

function correlation(a: Factor['values'], b: Factor['values']): number {
  const pairs = a.flatMap((value, s): [number, number][] => {
    const other = b[s] ?? null;
    return value === null || other === null ? [] : [[value, other]];
  });
  if (pairs.length < 2) return 0;
  const [p, q] = [standardised(pairs.map(([u]) => u)), standardised(pairs.map(([, v]) => v))];
  if (p.sd === 0 || q.sd === 0) return 0;
  return total(p.scores.map((score, s) => score * (q.scores[s] ?? 0))) / pairs.length;
}
