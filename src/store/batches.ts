import { nextBatches } from '#calc/batch.ts';
import { standingOf } from '#calc/log.ts';
import type { Instant } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';
import { columnsBetween } from '#store/history.ts';

/** A session may begin a day before the pot that is mixed now. */
const reachMs = 36 * 3_600_000;

/** The numbers for the cups of the next `count` pots, going on from those of the day. */
export async function batchesOf(
  book: Book,
  now: { at: Instant; zone: string },
  count: number,
): Promise<string[]> {
  const near = await columnsBetween(book, now.at - reachMs, now.at + 1);
  const sealed = await Promise.all(near.map(({ sessionId }) => book.db.get('sealed', sessionId)));
  const running = await book.db.getAll('entries');
  const entries = [...sealed.flatMap((session) => session?.entries ?? []), ...running];
  return nextBatches(standingOf(entries), now, count);
}
