import type { Entry, EntryId, Said, SessionId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, freshId, stampOf } from '#store/book.ts';
import { checked } from '#store/door.ts';
import { announce } from '#store/notice.ts';
import { withReserve } from '#store/room.ts';
import { whole } from '#store/whole.ts';

/** What a line can say: something that happened, or a correction of a line. */
export type Says = Entry['said'];

/** A checked entry with id and stamp, not yet stored. Throws a ZodError for what may not exist. */
export async function newEntry(
  book: Book,
  sessionId: SessionId,
  said: Says,
  at: Instant,
): Promise<Entry> {
  return await checked('entries', {
    id: freshId<EntryId>(at),
    sessionId,
    at,
    writtenAt: at,
    stamp: stampOf(book, at),
    device: book.device,
    said,
  });
}

/**
 * Writes one press into a running session. Resolves once it is on disk, so that the caller may
 * answer the hand. One strict transaction, blind puts, nothing read: the tap path.
 */
export async function logEntry(
  book: Book,
  sessionId: SessionId,
  said: Said,
  at: Instant,
): Promise<Entry> {
  const entry = await newEntry(book, sessionId, said, at);
  await putEntries(book, [entry]);
  return entry;
}

/** Takes back a line of a running session: the tap path of Undo. */
export async function undoEntry(
  book: Book,
  sessionId: SessionId,
  target: EntryId,
  at: Instant,
): Promise<Entry> {
  const entry = await newEntry(book, sessionId, { kind: 'taken-back', target }, at);
  await putEntries(book, [entry]);
  return entry;
}

/** Stores entries of running sessions in one strict transaction, then announces. */
export async function putEntries(book: Book, entries: readonly Entry[]): Promise<void> {
  await withReserve(async () => {
    const tx = book.db.transaction('entries', 'readwrite', { durability: 'strict' });
    await whole(tx, [
      ...entries.map((entry) => () => tx.store.put(entry)),
      // Committing by hand spares one turn of the event loop; a failed put still rejects `done`.
      () => tx.commit(),
    ]);
  });
  announce('entries');
}
