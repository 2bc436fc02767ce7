import { mentionsIn } from '#calc/told-mixes.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { Mix } from '#model/mix.ts';
import type { Book } from '#store/book.ts';
import { headsOf } from '#store/heads.ts';
import { columnsBetween } from '#store/history.ts';

/** A session may begin so long before a pot of it is made up. */
const reachMs = 36 * 3_600_000;

/**
 * Mixes that were made up at the table and have no name yet, the newest first. One of which every pour
 * was taken back waits for no name, and a side that became one of a laminate's waits as that laminate.
 */
export async function namelessMixes(book: Book): Promise<Mix[]> {
  const mixes = (await headsOf(book, 'mixes')).filter(({ colourwayId }) => colourwayId === null);
  const sessions = await sessionsNear(book, mixes);
  const said = sessions.map(mentionsIn);
  return mixes
    .filter(
      ({ id }) =>
        said.some(({ used }) => used.has(id)) || !said.some(({ mentioned }) => mentioned.has(id)),
    )
    .sort((a, b) => b.createdAt - a.createdAt || (a.id < b.id ? 1 : -1));
}

/** The entries of each session that may have poured one of these mixes when it was made up. */
async function sessionsNear(book: Book, mixes: readonly Mix[]): Promise<Entry[][]> {
  const near = new Set<SessionId>();
  for (const { createdAt } of mixes) {
    for (const { sessionId } of await columnsBetween(book, createdAt - reachMs, createdAt + 1)) {
      near.add(sessionId);
    }
  }
  const sealed = await Promise.all([...near].map((id) => book.db.get('sealed', id)));
  const running = Map.groupBy(
    mixes.length > 0 ? await book.db.getAll('entries') : [],
    ({ sessionId }) => sessionId,
  );
  return [...sealed.map((session) => session?.entries ?? []), ...running.values()];
}
