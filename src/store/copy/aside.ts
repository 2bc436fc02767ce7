import { type DBSchema, openDB } from 'idb';
import type { Stamp } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';
import type { Difference } from '#store/copy/difference.ts';
import type { Counts } from '#store/copy/header.ts';
import type { Write } from '#store/copy/writes.ts';

/** The last copy that left the phone. */
export interface LastCopy {
  at: number;
  /** The newest stamp of the logbook then; null: it had none. */
  newest: Stamp | null;
  counts: Counts;
  bytes: number;
  isLocked: boolean;
}

/** The last copy that was opened to its end only to see whether it can be. */
export interface TestedCopy {
  at: number;
  /** When and on which device the copy was made. */
  madeAt: number;
  device: string;
}

/** The last file that was brought in. */
export interface BroughtIn {
  name: string;
  at: number;
  difference: Difference;
  /** How many batches of writes there are to undo. */
  batches: number;
  /** The newest stamp of the logbook right after: while it is that, nothing was written since. */
  newest: Stamp | null;
}

/** What lies beside the logbook: never merged, in no file, and gone without harm. */
interface Kept extends DBSchema {
  kept: {
    key: 'last' | 'tested' | 'brought-in' | 'before' | `undo-${number}`;
    value: LastCopy | TestedCopy | BroughtIn | ArrayBuffer | readonly Write[];
  };
}
type Key = Kept['kept']['key'];
interface ValueOf {
  last: LastCopy;
  tested: TestedCopy;
  'brought-in': BroughtIn;
  /** The copy that was taken before, as a file's bytes. */
  before: ArrayBuffer;
  [undo: `undo-${number}`]: readonly Write[];
}

/** The database beside a logbook. */
export function asideName(bookName: string): string {
  return `${bookName}-aside`;
}

/** What is kept under a name; undefined: nothing. */
export async function keptAside<K extends Key>(
  book: Book,
  key: K,
): Promise<ValueOf[K] | undefined> {
  return await withAside(book, async (db) => (await db.get('kept', key)) as ValueOf[K] | undefined);
}

/** Keeps a value under a name; undefined takes it away. */
export async function keepAside<K extends Key>(
  book: Book,
  key: K,
  value: ValueOf[K] | undefined,
): Promise<void> {
  await withAside(book, async (db) => {
    const tx = db.transaction('kept', 'readwrite', { durability: 'strict' });
    if (value === undefined) await tx.store.delete(key);
    else await tx.store.put(value, key);
    await tx.done;
  });
}

/** What is not about the last file that came in. */
const staying: ReadonlySet<Key> = new Set<Key>(['last', 'tested']);

/** Forgets the undo of the file before. */
export async function clearUndo(book: Book): Promise<void> {
  await withAside(book, async (db) => {
    const keys = (await db.getAllKeys('kept')).filter((key) => !staying.has(key));
    const tx = db.transaction('kept', 'readwrite', { durability: 'strict' });
    await Promise.all([...keys.map((key) => tx.store.delete(key)), tx.done]);
  });
}

/** Logbooks that are being removed: what was opened now would come back as an empty database. */
const leaving = new Set<string>();

/** From now on nothing is opened beside this logbook: whoever asks gets no answer, the page is about to go. */
export function shutAside(bookName: string): void {
  leaving.add(bookName);
}

async function withAside<T>(
  book: Book,
  act: (db: Awaited<ReturnType<typeof openDB<Kept>>>) => Promise<T>,
): Promise<T> {
  if (leaving.has(book.db.name)) return await new Promise(() => {});
  const db = await openDB<Kept>(asideName(book.db.name), 1, {
    upgrade: (fresh) => void fresh.createObjectStore('kept'),
    blocking: (_current, _wanted, event) => (event.target as IDBDatabase).close(),
  });
  try {
    return await act(db);
  } finally {
    db.close();
  }
}
