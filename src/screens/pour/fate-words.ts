import type { Day } from '#calc/day-count.ts';
import { clockText, dayOf } from '#calc/days.ts';
import type { Line } from '#calc/log.ts';
import type { Table } from '#calc/table.ts';
import type { Instant } from '#model/schemas.ts';
import { entryWords, type Units } from '#screens/entry-words.ts';
import { lowered } from '#screens/result-words.ts';
import { dateWords } from '#screens/words.ts';

/** What became of a line: `Was all good, put right 20:46`, `Taken back 20:38`; empty: nothing. */
export function fateWords(table: Table, line: Line, units: Units): string {
  const { before, takenBackAt } = line;
  const parts: string[] = [];
  if (before) {
    const when = momentWords(before.putRightAt, table);
    parts.push(`Was ${beforeWords(table, line, before, units)}, put right ${when}`);
  }
  if (takenBackAt !== null) parts.push(`Taken back ${momentWords(takenBackAt, table)}`);
  return parts.join('. ');
}

/** A clock time, with the date when it is not the session's day. */
export function momentWords(at: Instant, { zone, begunAt }: Table): string {
  const day: Day = dayOf(at, zone);
  const clock = clockText(at, zone);
  const sessionDay = dayOf(begunAt, zone);
  return day === sessionDay ? clock : `${dateWords(day, sessionDay)} ${clock}`;
}

function beforeWords(
  table: Table,
  line: Line,
  before: NonNullable<Line['before']>,
  units: Units,
): string {
  const was = entryWords(table, { ...line, said: before.said }, units);
  const is = entryWords(table, line, units);
  const isMoved = momentWords(before.at, table) !== momentWords(line.at, table);
  const at = `at ${momentWords(before.at, table)}`;
  if (was.what !== is.what) return isMoved ? `${lowered(was.what)} ${at}` : lowered(was.what);
  if (isMoved) return at;
  return was.where || lowered(was.what);
}
