import type { Columns } from '#calc/columns.ts';
import { mentionsIn, mixIdsIn } from '#calc/told-mixes.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { MixId } from '#model/mix.ts';
import type { Book } from '#store/book.ts';
import type { ToldMeta } from '#store/db.ts';

/**
 * True when a pot of this version was ever mixed, also when that was taken back. Three reads, however
 * long the log is: what runs, how many evenings have ended, and the list of what those speak of.
 */
export async function wasPoured(book: Book, mixId: MixId): Promise<boolean> {
  const tx = book.db.transaction(['entries', 'sealed', 'meta']);
  const [running, ended, list] = await Promise.all([
    tx.objectStore('entries').getAll(),
    tx.objectStore('sealed').count(),
    tx.objectStore('meta').get('told'),
  ]);
  if (running.some(({ said }) => mixIdsIn(said).includes(mixId))) return true;
  if (isTold(list) && list.sessions === ended) return list.mixIds.includes(mixId);
  return (await listAnew(book)).includes(mixId);
}

/** The sessions that speak of a version, each with its entries. */
export async function sessionsTelling(
  book: Book,
  mixId: MixId,
): Promise<{ sessionId: SessionId; entries: readonly Entry[] }[]> {
  const tx = book.db.transaction(['entries', 'sealed', 'columns']);
  const running = Map.groupBy(
    await tx.objectStore('entries').getAll(),
    ({ sessionId }) => sessionId,
  );
  const sessions = [...running].map(([sessionId, entries]) => ({ sessionId, entries }));
  for (const { sessionId, told } of await digestsIn(tx)) {
    if (told && !told.includes(mixId)) continue;
    const sealed = await tx.objectStore('sealed').get(sessionId);
    if (sealed) sessions.push({ sessionId, entries: sealed.entries });
  }
  return sessions.filter(({ entries }) => mentionsIn(entries).mentioned.has(mixId));
}

interface Reading {
  objectStore(table: 'sealed'): { getAllKeys(): Promise<IDBValidKey[]> };
  objectStore(table: 'columns'): { getAll(): Promise<Columns[]> };
}

/** What is known of every ended session without reading it; `told` is absent where that must be done. */
async function digestsIn(tx: Reading): Promise<Pick<Columns, 'sessionId' | 'told'>[]> {
  const [ids, digests] = await Promise.all([
    tx.objectStore('sealed').getAllKeys(),
    tx.objectStore('columns').getAll(),
  ]);
  const told = new Map<string, Columns['told']>(digests.map((one) => [one.sessionId, one.told]));
  return ids.map((id) => {
    const ofOne = told.get(id as string);
    return { sessionId: id as SessionId, ...(ofOne ? { told: ofOne } : {}) };
  });
}

/** Puts the list together, from one moment of the database. */
async function listAnew(book: Book): Promise<readonly MixId[]> {
  const tx = book.db.transaction(['sealed', 'columns', 'meta'], 'readwrite');
  const found = new Set<MixId>();
  const digests = await digestsIn(tx);
  for (const { sessionId, told } of digests) {
    const entries = told ? [] : (await tx.objectStore('sealed').get(sessionId))?.entries;
    for (const id of told ?? mentionsIn(entries ?? []).mentioned) found.add(id);
  }
  const mixIds = [...found];
  // It can be put together again: a device without room for it loses nothing.
  const list = { name: 'told', sessions: digests.length, mixIds } as const;
  await Promise.allSettled([tx.objectStore('meta').put(list), tx.done]);
  return mixIds;
}

interface Sealing {
  objectStore(table: 'sealed'): { count(): Promise<number>; getKey(id: string): Promise<unknown> };
  objectStore(table: 'meta'): {
    get(name: 'told'): Promise<{ name: string } | undefined>;
    put(list: ToldMeta): unknown;
    delete(name: 'told'): unknown;
  };
}

/**
 * The write that keeps the list right, for the transaction that seals sessions; asked for before they
 * are written. A list that is not of the sessions that are there is given up.
 */
export async function toldWrites(
  tx: Sealing,
  digests: readonly Pick<Columns, 'sessionId' | 'told'>[],
): Promise<(() => unknown)[]> {
  const meta = tx.objectStore('meta');
  const list = await meta.get('told');
  if (!isTold(list)) return [];
  const sealed = tx.objectStore('sealed');
  const ended = await sealed.count();
  if (list.sessions !== ended) return [() => meta.delete('told')];
  const there = await Promise.all(digests.map(({ sessionId }) => sealed.getKey(sessionId)));
  const sessions = ended + there.filter((key) => key === undefined).length;
  const mixIds = [...new Set([...list.mixIds, ...digests.flatMap(({ told = [] }) => told)])];
  return [() => meta.put({ name: 'told', sessions, mixIds })];
}

function isTold(list: { name: string } | undefined): list is ToldMeta {
  return list?.name === 'told';
}
