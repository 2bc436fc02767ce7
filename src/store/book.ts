import { v7 } from 'uuid';
import { laterStamp, nextStamp } from '#calc/stamp.ts';
import type { DeviceId, Instant, Stamp } from '#model/schemas.ts';
import { type Db, type OpeningNews, openDatabase } from '#store/db.ts';

/** An open logbook: the database and the pen of this device. */
export interface Book {
  readonly db: Db;
  readonly device: DeviceId;
  /** The newest stamp seen; every further one is later. */
  lastStamp: Stamp | null;
}

/** Opens the logbook `name`, and gives the device its id at the first time. */
export async function openBook(name: string, news?: OpeningNews): Promise<Book> {
  const db = await openDatabase(name, news);
  const found = await db.get('meta', 'device');
  const own = found?.name === 'device' ? found : undefined;
  const device = own?.device ?? randomHex(4);
  if (!own) await db.put('meta', { name: 'device', device, lastStamp: null });
  const newest = await newestRunningStamp(db);
  return { db, device, lastStamp: laterStamp(own?.lastStamp ?? null, newest) };
}

/** The next stamp of this device; later than every one the book has seen. */
export function stampOf(book: Book, at: Instant): Stamp {
  book.lastStamp = nextStamp(book.lastStamp, at, book.device);
  return book.lastStamp;
}

/** Takes note of a stamp that came from elsewhere, so that the next one is later. */
export function seeStamp(book: Book, stamp: Stamp | null): void {
  book.lastStamp = laterStamp(book.lastStamp, stamp);
}

/** The same for all the stamps of what was read. */
export function seeStamps(book: Book, stamps: readonly Stamp[]): void {
  for (const stamp of stamps) seeStamp(book, stamp);
}

/** Begins anywhere in the lower half of 32 bits, so that it does not run over. */
let made = Number.parseInt(randomHex(4), 16) >>> 1;

/**
 * A fresh id, made here: the one place where text becomes an id without a look. Ids of one instant come
 * in the order in which they were made (a counter, RFC 9562, 6.2): so do lists of what was written at once.
 */
export function freshId<Id extends string>(at: Instant): Id {
  made += 1;
  return v7({ msecs: at, seq: made }) as Id;
}

/** Remembers the newest stamp outside the entries, so that an empty table cannot turn it back. */
export function pennedMeta(book: Book) {
  return { name: 'device', device: book.device, lastStamp: book.lastStamp } as const;
}

async function newestRunningStamp(db: Db): Promise<Stamp | null> {
  const keys = await db.getAllKeys('entries');
  return keys.reduce<Stamp | null>((newest, [, stamp]) => laterStamp(newest, stamp), null);
}

function randomHex(bytes: number): string {
  const values = crypto.getRandomValues(new Uint8Array(bytes));
  return [...values].map((value) => value.toString(16).padStart(2, '0')).join('');
}
