import { laterStamp } from '#calc/stamp.ts';
import type { Stamp } from '#model/schemas.ts';
import { type Book, pennedMeta } from '#store/book.ts';
import { type BroughtIn, clearUndo, keepAside, keptAside } from '#store/copy/aside.ts';
import {
  type Difference,
  keptDifference,
  newTally,
  sound,
  type Tally,
  writesOrFault,
} from '#store/copy/difference.ts';
import type { OpenFile, Watch } from '#store/copy/file.ts';
import { stampsOf } from '#store/copy/fit.ts';
import { carried } from '#store/copy/header.ts';
import { takenCopy } from '#store/copy/take.ts';
import { type Unit, unitsOf, type Write } from '#store/copy/writes.ts';
import type { Logbook, Table } from '#store/db.ts';
import { announce } from '#store/notice.ts';

const written = [...carried, 'columns', 'meta'] as const;
const batchSize = 50;

/**
 * Brings a file into the logbook: first a copy of the logbook as it is, then the records in small
 * transactions. Taking the same file in twice is taking it in once, in whatever order files come; so
 * one that is stopped half-way is opened again to go on, or undone. Resolves with what came in.
 */
export async function broughtIn(
  book: Book,
  open: OpenFile,
  about: { name: string; at: number; version: string },
  watch: Watch = {},
): Promise<Difference> {
  const { name, at, version } = about;
  const before = await takenCopy(book, { withPhotos: false, words: null, version }, at);
  await clearUndo(book);
  await keepAside(book, 'before', await before.file.arrayBuffer());
  const tally = newTally();
  let batches = 0;
  const flush = async (units: readonly Unit[]) => {
    const writes = await storeBatch(book, units, tally);
    if (writes.length === 0) return;
    batches += 1;
    await keepAside(
      book,
      `undo-${batches}`,
      writes.map((write) => ({ ...write, after: undefined })),
    );
    await note();
  };
  const note = async () => {
    const newest = await newestStamp(book);
    const difference = keptDifference(tally.done());
    await keepAside(book, 'brought-in', { name, at, difference, batches, newest });
    announce('meta');
  };
  let held: Unit[] = [];
  for await (const unit of unitsOf(sound(open, watch, tally.faults))) {
    held.push(unit);
    if (held.length < batchSize && unit.table !== 'photo-bytes') continue;
    await flush(held);
    held = [];
  }
  await flush(held);
  // What was left out after the last write is told with it.
  if (batches > 0 && tally.faults.length > 0) await note();
  return tally.done();
}

async function storeBatch(book: Book, units: readonly Unit[], tally: Tally): Promise<Write[]> {
  const all: Write[] = [];
  const tx = book.db.transaction(written, 'readwrite', { durability: 'strict' });
  try {
    for (const unit of units) {
      const writes = await writesOrFault(tx as never, unit, tally);
      if (!writes) continue;
      tally.add(unit, writes);
      for (const write of writes) void put(tx, write, write.after);
      all.push(...writes);
    }
    if (all.length > 0) {
      book.lastStamp = newestOf(units, book.lastStamp);
      void tx.objectStore('meta').put(pennedMeta(book));
      // What the sessions speak of is put together anew.
      void tx.objectStore('meta').delete('told');
    }
  } catch (error) {
    tx.done.catch(() => {});
    tx.abort();
    throw error;
  }
  await tx.done;
  announceWrites(all);
  return all;
}

/** What became of the undo of the last file. */
export type Undone = 'undone' | 'nothing-to-undo' | 'written-since';

/**
 * Puts everything back that the last file changed, in one transaction. Not when anything was
 * written since: that would be lost with it.
 */
export async function undoBroughtIn(book: Book): Promise<Undone> {
  const last = await keptAside(book, 'brought-in');
  if (!last) return 'nothing-to-undo';
  if ((await newestStamp(book)) !== last.newest) return 'written-since';
  const writes: Write[] = [];
  for (let batch = last.batches; batch >= 1; batch -= 1) {
    writes.push(...((await keptAside(book, `undo-${batch}`)) ?? []).toReversed());
  }
  const tx = book.db.transaction(written, 'readwrite', { durability: 'strict' });
  // Asked once more where nothing can come in between.
  if ((await newestIn(tx)) !== last.newest) {
    await tx.done;
    return 'written-since';
  }
  for (const write of writes) void put(tx, write, write.before);
  void tx.objectStore('meta').delete('told');
  await tx.done;
  await clearUndo(book);
  announceWrites(writes);
  return 'undone';
}

/** The last file that was brought in, while it can be undone or looked at. */
export async function lastBroughtIn(
  book: Book,
): Promise<(BroughtIn & { canUndo: boolean }) | undefined> {
  const last = await keptAside(book, 'brought-in');
  return last && { ...last, canUndo: (await newestStamp(book)) === last.newest };
}

/** The newest stamp that anything in the logbook carries; null: it is empty. */
export async function newestStamp(book: Book): Promise<Stamp | null> {
  return await newestIn(book.db.transaction(['meta', 'entries']));
}

interface Stamped {
  objectStore(table: 'meta'): {
    get(name: 'device'): Promise<Logbook['meta']['value'] | undefined>;
  };
  objectStore(table: 'entries'): { getAllKeys(): Promise<IDBValidKey[]> };
}

async function newestIn(tx: Stamped): Promise<Stamp | null> {
  const [meta, keys] = await Promise.all([
    tx.objectStore('meta').get('device'),
    tx.objectStore('entries').getAllKeys(),
  ]);
  return (keys as Logbook['entries']['key'][]).reduce<Stamp | null>(
    (newest, [, stamp]) => laterStamp(newest, stamp),
    meta?.name === 'device' ? meta.lastStamp : null,
  );
}

interface Storing {
  objectStore(table: Table): {
    put?: (value: never) => Promise<unknown>;
    delete?: (key: never) => Promise<unknown>;
  };
}

/** A write that fails ends the whole transaction, which its `done` tells. */
function put(tx: unknown, { table, key }: Write, value: unknown): void {
  const store = (tx as Storing).objectStore(table);
  const doing = value === undefined ? store.delete?.(key as never) : store.put?.(value as never);
  doing?.catch(() => {});
}

function announceWrites(writes: readonly Write[]): void {
  const tables = [...new Set(writes.map(({ table }) => table))];
  if (tables.length > 0) announce(...tables, 'meta');
}

function newestOf(units: readonly Unit[], last: Stamp | null): Stamp | null {
  return units
    .flatMap(({ table, records }) => records.flatMap((record) => stampsOf(table, record)))
    .reduce<Stamp | null>((newest, stamp) => laterStamp(newest, stamp), last);
}
