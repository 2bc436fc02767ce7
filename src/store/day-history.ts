import type { Columns } from '#calc/columns.ts';
import type { Day } from '#calc/day-count.ts';
import { boundsOf, dayOf } from '#calc/days.ts';
import type { Book } from '#store/book.ts';
import { columnsBetween } from '#store/history.ts';

/** The digests of the sessions that began on a calendar day, each by its own zone, oldest first. */
export async function columnsOfDay(book: Book, day: Day): Promise<Columns[]> {
  // A day begins somewhere on earth up to 14 hours before and ends up to 12 after it does in UTC.
  const { from, to } = boundsOf(day, 'UTC');
  const near = await columnsBetween(book, from - 15 * 3_600_000, to + 15 * 3_600_000);
  return near.filter(({ startedAt, zone }) => dayOf(startedAt, zone) === day);
}
