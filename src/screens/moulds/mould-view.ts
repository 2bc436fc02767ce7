import type { Columns } from '#calc/columns.ts';
import { boundsOf, dayOf } from '#calc/days.ts';
import { sessionsOfMould } from '#calc/last-poured.ts';
import { cavityMatrix, type LoggedShot } from '#calc/mould-shots.ts';
import { isTooEarlyAcross, yieldIntervalAcross } from '#calc/yield.ts';
import { countsOf, type MouldYield, type Which, yieldsByMould } from '#calc/yields.ts';
import type { MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import { countWords, dateWords } from '#screens/words.ts';
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

/** [p, lo, hi] of the mould's good share, 0 to 1; null: too few to tell. */
export function expectedShares(own: MouldYield): [number, number, number] | null {
  const counts = countsOf(own.sessions);
  if (counts.length === 0 || isTooEarlyAcross(counts, conf)) return null;
  return yieldIntervalAcross(counts, conf);
}

/** Where the scale of good shares begins, in hundreds: at half, unless one of them lies lower. */
export function scaleFrom(shares: readonly ([number, number, number] | null)[]): number {
  return shares.some((share) => share !== null && share[1] < 0.5) ? 0 : 50;
}

/** `45 warm shots since 9 Nov`: how many shots a look takes in, and from when on. */
export function seenWords(own: MouldYield | null, look: Look, now: number, zone: string): string {
  const kind = look === 'warm' ? 'warm shot' : 'shot';
  const count = countWords(own?.tally.shots ?? 0, kind);
  if (look === 'month') return `${count} this month`;
  const [first] = own?.sessions ?? [];
  if (!first) return count;
  const [, ...date] = dateWords(dayOf(first.startedAt, zone), dayOf(now, zone)).split(' ');
  return `${count} since ${date.join(' ')}`;
}

/** The counts with the mended cavities counted from their mending on. */
export function countedSince(
  own: MouldYield,
  shots: readonly LoggedShot[],
  since: ReadonlyMap<number, Instant>,
): MouldYield {
  if (since.size === 0) return own;
  const matrix = cavityMatrix(shots, 'bad', since);
  const byCavity = own.byCavity.map((_, index) => {
    const seen = matrix.flatMap((shot) => shot[index] ?? []);
    return { checked: seen.length, bad: seen.filter((bad) => bad === 1).length };
  });
  return { ...own, byCavity };
}
