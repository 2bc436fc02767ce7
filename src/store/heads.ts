import { mergedHead } from '#calc/merge.ts';
import type { Change } from '#model/change.ts';
import type { Colourway, Injector } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mix } from '#model/mix.ts';
import type { Mould } from '#model/mould.ts';
import type { Idea, Photo, Remark } from '#model/photo.ts';
import type { Instant, Stamp } from '#model/schemas.ts';
import { type Book, freshId, pennedMeta, seeStamps, stampOf } from '#store/book.ts';
import { checked } from '#store/door.ts';
import { announce } from '#store/notice.ts';
import { whole } from '#store/whole.ts';

/** The kinds of head that a shop has many of. */
export interface Heads {
  moulds: Mould;
  injectors: Injector;
  colourways: Colourway;
  materials: Material;
  mixes: Mix;
  photos: Photo;
  remarks: Remark;
  ideas: Idea;
  changes: Change;
}

type Parts = 'id' | 'device' | 'stamps' | 'createdAt' | 'deletedAt';
type KnownKeys<T> = keyof { [K in keyof T as string extends K ? never : K]: T[K] };
/** The fields of a head that a person sets. */
export type FactsOf<K extends keyof Heads> = Pick<
  Heads[K],
  Exclude<KnownKeys<Heads[K]>, Parts> & keyof Heads[K]
>;

/** All heads of one kind that are not deleted, oldest first. */
export async function headsOf<K extends keyof Heads>(book: Book, kind: K): Promise<Heads[K][]> {
  const heads = (await book.db.getAll(kind)) as Heads[K][];
  return heads
    .filter((head) => head.deletedAt === null)
    .sort((a, b) => a.createdAt - b.createdAt || (a.id < b.id ? -1 : 1));
}

/** All heads of one kind that are deleted, the newest first. */
export async function deletedHeadsOf<K extends keyof Heads>(
  book: Book,
  kind: K,
): Promise<Heads[K][]> {
  const heads = (await book.db.getAll(kind)) as Heads[K][];
  return heads
    .filter((head) => head.deletedAt !== null)
    .sort((a, b) => (b.deletedAt ?? 0) - (a.deletedAt ?? 0));
}

/** One head, also when it is deleted; undefined when there is none. */
export async function headOf<K extends keyof Heads>(
  book: Book,
  kind: K,
  id: Heads[K]['id'],
): Promise<Heads[K] | undefined> {
  return (await book.db.get(kind, id)) as Heads[K] | undefined;
}

/** Adds a head and returns it. Throws a ZodError when a field is out of its bounds. */
export async function addHead<K extends keyof Heads>(
  book: Book,
  kind: K,
  facts: FactsOf<K>,
  at: Instant,
): Promise<Heads[K]> {
  return await putHead(book, kind, await newHead(book, kind, { facts, at }));
}

/** Sets some fields of a head; fields that stay as they are keep their stamps. */
export async function changeHead<K extends keyof Heads>(
  book: Book,
  kind: K,
  id: Heads[K]['id'],
  changes: Partial<FactsOf<K>>,
  at: Instant,
): Promise<Heads[K]> {
  const old = await headOf(book, kind, id);
  if (!old) throw new Error('This is not in the logbook any more.');
  return await putHead(book, kind, await changedHead(book, kind, old, changes, at));
}

/** A head with some fields set, checked and stamped, not yet stored. */
export async function changedHead<K extends keyof Heads>(
  book: Book,
  kind: K,
  old: Heads[K],
  changes: Partial<FactsOf<K>> & { deletedAt?: Instant | null },
  at: Instant,
): Promise<Heads[K]> {
  const stamps = { ...old.stamps };
  // Another window may have brought in what is from later than this one knows of: this change comes after it.
  seeStamps(book, Object.values(stamps));
  const stamp = stampOf(book, at);
  for (const [field, value] of Object.entries(changes)) {
    if (!isSame(value, old[field as keyof Heads[K]])) stamps[field] = stamp;
  }
  const next = { ...old, ...changes, stamps, device: book.device };
  return (await checked(kind, next)) as Heads[K];
}

/** Marks a head as deleted; `null` brings it back. */
export async function setDeleted<K extends keyof Heads>(
  book: Book,
  kind: K,
  id: Heads[K]['id'],
  deletedAt: Instant | null,
  at: Instant,
): Promise<void> {
  const old = await headOf(book, kind, id);
  if (!old) return;
  await putHead(book, kind, await changedHead(book, kind, old, { deletedAt } as never, at));
}

/** A checked head with id and stamps, not yet stored. Throws a ZodError as `addHead` does. */
export async function newHead<K extends keyof Heads>(
  book: Book,
  kind: K,
  { facts, at, id }: { facts: FactsOf<K>; at: Instant; id?: Heads[K]['id'] },
): Promise<Heads[K]> {
  const stamp: Stamp = stampOf(book, at);
  const fields = [...Object.keys(facts), 'deletedAt'];
  return (await checked(kind, {
    ...facts,
    id: id ?? freshId(at),
    device: book.device,
    stamps: Object.fromEntries(fields.map((field) => [field, stamp])),
    createdAt: at,
    deletedAt: null,
  })) as Heads[K];
}

type AnyHead = Parameters<typeof mergedHead>[0];

/**
 * Heads over those they were made from, read in the transaction that stores them: what another window
 * changed meanwhile is kept.
 */
export async function overTheirs<T extends AnyHead>(
  store: { get: (id: string) => Promise<unknown> },
  heads: readonly T[],
): Promise<T[]> {
  const there = await Promise.all(heads.map(({ id }) => store.get(id) as Promise<T | undefined>));
  return heads.map((head, index) => {
    const old = there[index];
    return old ? mergedHead(old, head) : head;
  });
}

/** Stores a head over the one it was made from. */
async function putHead<K extends keyof Heads>(
  book: Book,
  kind: K,
  head: Heads[K],
): Promise<Heads[K]> {
  const tx = book.db.transaction([kind, 'meta'], 'readwrite', { durability: 'strict' });
  const store = tx.objectStore(kind);
  const [next = head] = await overTheirs(store, [head]);
  await whole(tx, [
    () => store.put(next as never),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce(kind);
  return next;
}

function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
