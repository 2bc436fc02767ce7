import type { Columns } from '#calc/columns.ts';
import type { Instant } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';

/** As many as a slow phone can take from the disk between two pictures. */
const batchSize = 40;

/** The digests of the sessions that started in `[from, to)`, oldest first. */
export async function columnsBetween(book: Book, from: Instant, to: Instant): Promise<Columns[]> {
  return await book.db.getAll('columns', IDBKeyRange.bound([from], [to], false, true));
}

/** The digests of the whole history, oldest first, a few at a time so that the page keeps drawing. */
export async function* columnsInBatches(book: Book): AsyncGenerator<Columns[]> {
  let after: IDBKeyRange | undefined;
  while (true) {
    const batch = await book.db.getAll('columns', after, batchSize);
    const last = batch.at(-1);
    if (!last) return;
    yield batch;
    if (batch.length < batchSize) return;
    after = IDBKeyRange.lowerBound([last.startedAt, last.sessionId], true);
  }
}

/** The digests of the whole history, oldest first. */
export async function allColumns(book: Book): Promise<Columns[]> {
  const found: Columns[] = [];
  for await (const batch of columnsInBatches(book)) found.push(...batch);
  return found;
}

/**
 * The newest session digests, newest first, at most `count`; with `before` only those that come
 * before that one.
 */
export async function columnsBackFrom(
  book: Book,
  before: Columns | null,
  count: number,
): Promise<Columns[]> {
  const range = before && IDBKeyRange.upperBound([before.startedAt, before.sessionId], true);
  const found: Columns[] = [];
  const tx = book.db.transaction('columns');
  let cursor = await tx.store.openCursor(range, 'prev');
  while (cursor && found.length < count) {
    found.push(cursor.value);
    cursor = await cursor.continue();
  }
  return found;
}

/** The newest session digest; undefined when nothing was ever poured. */
export async function newestColumns(book: Book): Promise<Columns | undefined> {
  const tx = book.db.transaction('columns');
  const cursor = await tx.store.openCursor(null, 'prev');
  return cursor?.value;
}
