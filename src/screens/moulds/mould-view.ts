import type { Columns } from '#calc/columns.ts';
import { boundsOf, dayOf } from '#calc/days.ts';
import { sessionsOfMould } from '#calc/last-poured.ts';
import { isTooEarlyAcross, yieldIntervalAcross } from '#calc/yield.ts';
import { countsOf, type MouldYield, type Which, yieldsByMould } from '#calc/yields.ts';
import type { MouldId } from '#model/mould.ts';
import { conf } from '#screens/yield-words.ts';

/** Which of a mould's shots a page looks at. */
export type Look = 'all' | 'warm' | 'month';

/** The counts of one mould; null: no such shot. */
export function mouldYieldOf(
  columns: readonly Columns[],
  mouldId: MouldId,
  which: Which,
): MouldYield | null {
  const own = yieldsByMould(sessionsOfMould(columns, mouldId), which);
  return own.find((one) => one.mouldId === mouldId) ?? null;
}

/** The digests that a look takes in: those of this calendar month, or all. */
export function lookedAt(
  columns: readonly Columns[],
  look: Look,
  now: number,
  zone: string,
): readonly Columns[] {
  if (look !== 'month') return columns;
  const { from } = boundsOf(`${dayOf(now, zone).slice(0, 7)}-01`, zone);
  return columns.filter((session) => session.startedAt >= from);
}

/** What to expect of the mould, in shares of a hundred; null: too few to tell. */
export function expectedOfMould(own: MouldYield): { p: number; lo: number; hi: number } | null {
  const counts = countsOf(own.sessions);
  if (counts.length === 0 || isTooEarlyAcross(counts, conf)) return null;
  const [p = 0, lo = 0, hi = 1] = yieldIntervalAcross(counts, conf);
  return { p: Math.round(p * 100), lo: Math.round(lo * 100), hi: Math.round(hi * 100) };
}
