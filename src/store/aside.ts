import { mergedHead } from '#calc/merge.ts';
import type { Entry } from '#model/entry.ts';
import type { Instant, Stamp } from '#model/schemas.ts';
import { type Book, pennedMeta, stampOf } from '#store/book.ts';
import type { AsideMeta } from '#store/db.ts';
import { openDoor } from '#store/door.ts';
import { looseTables } from '#store/keeping.ts';
import { announce } from '#store/notice.ts';
import { putIntoSession } from '#store/sessions.ts';
import { whole } from '#store/whole.ts';

/** A record that was set aside, and what could be done about it. */
export interface Aside extends AsideMeta {
  /** The name it carries, if that can be read. */
  title: string | null;
  /** How many of its facts cannot be read. */
  faults: number;
  /** The record with those facts not set; null: it would make no sense then. */
  mended: Record<string, unknown> | null;
}

type Head = Parameters<typeof mergedHead>[0];

/** Values that mean "not set", in the order in which they are tried. */
const unset: readonly unknown[] = [null, [], '', false, {}, 'Not known'];

/** Every record that was set aside, the newest first. */
export async function setAside(book: Book): Promise<Aside[]> {
  const range = IDBKeyRange.bound('aside ', 'aside \uffff');
  const found = (await book.db.getAll('meta', range)).filter(isAside);
  const all = await Promise.all(found.map((one) => asideOf(book, one)));
  return all.sort((a, b) => b.foundAt - a.foundAt);
}

/**
 * Puts a record back into its table, with what could not be read not set. Throws for one that
 * cannot be mended.
 */
export async function putBackAside(
  book: Book,
  name: AsideMeta['name'],
  at: Instant,
): Promise<void> {
  const found = await book.db.get('meta', name);
  const aside = isAside(found) ? await asideOf(book, found) : null;
  if (!aside?.mended) throw new Error('This record cannot be mended.');
  const { table, mended } = aside;
  if (table === 'entries') {
    await putIntoSession(book, mended as Entry);
    await book.db.delete('meta', name);
    announce('meta');
    return;
  }
  const unsaid = Object.keys(mended).filter(
    (field) => field !== 'stamps' && mended[field] !== recordOf(aside)[field],
  );
  const stamp = stampOf(book, at);
  const tx = book.db.transaction([table, 'meta'], 'readwrite', { durability: 'strict' });
  const store = tx.objectStore(table);
  // It may have come back another way, and have been changed since.
  const there: unknown = await store.get(keyIn(store.keyPath, mended) as never);
  await whole(tx, [
    () => store.put(backOver(there, mended, unsaid, stamp) as never),
    () => tx.objectStore('meta').delete(name),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce(table, 'meta');
}

/** A mended record over what lies in its place: what is set there wins over what could not be read. */
function backOver(
  there: unknown,
  mended: Record<string, unknown>,
  unsaid: readonly string[],
  stamp: Stamp,
): unknown {
  if (!('stamps' in mended)) return there ?? mended;
  const stamps = { ...(mended.stamps as Record<string, Stamp>) };
  for (const field of unsaid) {
    if (there) delete stamps[field];
    else stamps[field] = stamp;
  }
  const head = { ...mended, stamps } as Head;
  return there ? mergedHead(there as Head, head) : head;
}

function keyIn(path: string | string[] | null, record: Record<string, unknown>): unknown {
  return Array.isArray(path) ? path.map((field) => record[field]) : record[path ?? 'id'];
}

async function asideOf(book: Book, found: AsideMeta): Promise<Aside> {
  const { faultyFields, fits } = await openDoor();
  const { table } = found;
  const record = recordOf(found);
  const faults = faultyFields(table, record);
  let mended: Record<string, unknown> = { ...record };
  for (const field of looseTables.includes(table as never) ? faults : []) {
    const known: readonly unknown[] = field === 'device' ? [book.device] : [found.foundAt];
    const value = [...unset, ...known].find(
      (candidate) => !faultyFields(table, { ...mended, [field]: candidate }).includes(field),
    );
    mended = { ...mended, [field]: value };
  }
  return {
    ...found,
    title: typeof record.name === 'string' ? record.name : null,
    faults: faults.length,
    mended: fits(table, mended) ? mended : null,
  };
}

function recordOf({ record }: AsideMeta): Record<string, unknown> {
  return typeof record === 'object' && record !== null ? { ...record } : {};
}

function isAside(found: { name: string } | undefined): found is AsideMeta {
  return found?.name.startsWith('aside ') ?? false;
}
