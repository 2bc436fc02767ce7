import type { Book } from '#store/book.ts';
import {
  type OpenFile,
  openedFile,
  type Source,
  type Watch,
  writtenFile,
} from '#store/copy/file.ts';
import { type Fault, fitting } from '#store/copy/fit.ts';
import { type Carried, type Counts, carried } from '#store/copy/header.ts';
import { noCounts } from '#store/copy/lines.ts';
import { refusal } from '#store/copy/refusal.ts';

const batchSize = 50;
/** A session may be reopened while it is copied: the whole copy then begins again. */
const mostTries = 3;

/** What a copy is to be. */
export interface Wish {
  withPhotos: boolean;
  /** Locks it; null: open. */
  words: string | null;
  /** Of the app. */
  version: string;
}

/** A copy that was read back from beginning to end after it was written. */
export interface Copy {
  file: Blob;
  counts: Counts;
  /** Records that are in the file, but which the app itself would not take again. */
  faults: readonly Fault[];
}

/**
 * Writes the whole logbook into one file, then opens that file and reads all of it again. Throws
 * when anything went wrong on the way; a copy that is returned is good.
 */
export async function takenCopy(
  book: Book,
  wish: Wish,
  at: number,
  watch: Watch = {},
): Promise<Copy> {
  const half = (from: number): Watch => ({
    ...watch,
    onShare: (share) => watch.onShare?.(from + share / 2),
  });
  const file = await written(book, wish, at, half(0));
  return { file, ...(await readThrough(await openedFile(file, wish.words), half(0.5))) };
}

async function written(book: Book, wish: Wish, at: number, watch: Watch): Promise<Blob> {
  const from = { at, app: wish.version, device: book.device };
  return await untilStill(async () =>
    writtenFile(await sourceOf(book, wish.withPhotos), from, wish.words, watch),
  );
}

/** Does it once more where a record went away under its hands, a few times. */
export async function untilStill<T>(act: () => Promise<T>): Promise<T> {
  for (let tries = 1; ; tries += 1) {
    try {
      return await act();
    } catch (error) {
      if (!(error instanceof Error) || error.message !== wentAway || tries === mostTries) {
        throw error;
      }
    }
  }
}

/** Reads a file from beginning to end and takes nothing in. Throws for one that is not whole. */
export async function readThrough(
  open: OpenFile,
  watch: Watch,
): Promise<Pick<Copy, 'counts' | 'faults'>> {
  const faults: Fault[] = [];
  const counts = noCounts();
  for await (const one of fitting(open, watch)) {
    if ('reason' in one) faults.push(one);
    counts[one.table] += 1;
  }
  if (carried.some((table) => counts[table] !== open.header.counts[table])) {
    throw refusal('damaged');
  }
  return { counts, faults };
}

const wentAway = 'A record went away while it was copied.';

/** The records of a logbook: their keys from one moment, each read when its turn comes. */
export async function sourceOf(book: Book, withPhotos: boolean): Promise<Source> {
  const tables = carried.filter((table) => withPhotos || table !== 'photo-bytes');
  const tx = book.db.transaction(tables);
  const keys = await Promise.all(
    tables.map(async (table) => [table, await tx.objectStore(table).getAllKeys()] as const),
  );
  // A running session moves when it ends: it is read whole in the same moment.
  const running = await tx.objectStore('entries').getAll();
  await tx.done;
  const counts = noCounts();
  for (const [table, found] of keys) counts[table] = found.length;
  async function* records(): AsyncGenerator<{ table: Carried; record: unknown }> {
    for (const [table, found] of keys) {
      if (table === 'entries') {
        for (const record of running) yield { table, record };
        continue;
      }
      const size = table === 'photo-bytes' ? 1 : batchSize;
      for (let from = 0; from < found.length; from += size) {
        const some = found.slice(from, from + size);
        const batch = book.db.transaction(table);
        const read = await Promise.all(some.map((key) => batch.store.get(key as never)));
        for (const record of read) {
          if (record === undefined) throw new Error(wentAway);
          yield { table, record };
        }
      }
    }
  }
  return { counts, records: records() };
}
