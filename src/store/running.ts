import type { Entry, Said, SessionId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import type { SealedSession } from '#model/session.ts';
import { type Book, freshId, seeStamp } from '#store/book.ts';
import { newEntry, putEntries } from '#store/entries.ts';

/** Begins a session with what it opens on. Resolves once it is on disk. */
export async function beginSession(
  book: Book,
  opening: readonly Said[],
  at: Instant,
): Promise<SessionId> {
  const sessionId = freshId<SessionId>(at);
  await putEntries(
    book,
    await Promise.all(opening.map((said) => newEntry(book, sessionId, said, at))),
  );
  return sessionId;
}

/** The entries of the session that runs, the newest session if there are several; null: none runs. */
export async function runningEntries(book: Book): Promise<Entry[] | null> {
  const keys = await book.db.getAllKeys('entries');
  const newest = keys
    .map(([sessionId]) => sessionId)
    .sort()
    .at(-1);
  return newest === undefined ? null : await entriesRunning(book, newest);
}

/** The entries of one session, running or sealed, in the order of their stamps; empty: unknown. */
export async function entriesOf(book: Book, sessionId: SessionId): Promise<Entry[]> {
  const running = await entriesRunning(book, sessionId);
  if (running.length > 0) return running;
  const entries = (await book.db.get('sealed', sessionId))?.entries ?? [];
  seeStamp(book, entries.at(-1)?.stamp ?? null);
  return entries;
}

/** All ended sessions, oldest first. Reads everything: for pages about the log itself. */
export async function sealedSessions(book: Book): Promise<SealedSession[]> {
  const sealed = await book.db.getAll('sealed');
  return sealed.sort((a, b) => a.startedAt - b.startedAt);
}

/** The entries of one running session, in the order of their stamps. */
export async function entriesRunning(book: Book, sessionId: string): Promise<Entry[]> {
  const entries = await book.db.getAll('entries', rangeOf(sessionId));
  // Another window's clock may be ahead: what is pressed here comes after what was read here.
  seeStamp(book, entries.at(-1)?.stamp ?? null);
  return entries;
}

/** The keys of one session's entries. */
export function rangeOf(sessionId: string): IDBKeyRange {
  return IDBKeyRange.bound([sessionId, ''], [sessionId, '\uffff']);
}
