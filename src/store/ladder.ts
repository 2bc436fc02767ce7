/** One change of shape between two releases. */
interface Rung {
  /** New object stores and indexes; a file has none and skips this. */
  stores?: (db: IDBDatabase) => void;
  /** Per object store, how one record is rewritten. */
  records?: Readonly<Record<string, (old: Old) => Old>>;
}
type Old = Record<string, unknown>;

/**
 * Every shape the data has ever had, oldest first. The database climbs these rungs when it opens, a
 * file of it when it is read.
 *
 * A released rung is frozen: it spells out old and new shape itself and imports nothing, because
 * the code around it moves on and the data in a drawer does not.
 */
export const ladder: readonly Rung[] = [
  {
    stores(db) {
      for (const heads of ['moulds', 'injectors', 'colourways', 'settings']) {
        db.createObjectStore(heads, { keyPath: 'id' });
      }
      // A running session: one small record per tap, in the order of writing, no other index. The id
      // keeps two windows of one device apart, which can come to the same stamp.
      db.createObjectStore('entries', { keyPath: ['sessionId', 'stamp', 'id'] });
      // Ended sessions whole, and their packed digests by start time.
      db.createObjectStore('sealed', { keyPath: 'id' });
      db.createObjectStore('columns', { keyPath: ['startedAt', 'sessionId'] });
      // What the hand is in the middle of, and what only this device knows.
      db.createObjectStore('drafts', { keyPath: 'sessionId' });
      db.createObjectStore('meta', { keyPath: 'name' });
    },
  },
  {
    stores(db) {
      // What is bought and used up, mixes in versions, pictures, notes, ideas, and what was done to a mould.
      for (const heads of ['materials', 'mixes', 'photos', 'remarks', 'ideas', 'changes']) {
        db.createObjectStore(heads, { keyPath: 'id' });
      }
      // Apart from `photos`, so that a wall of them is read without every picture's bytes.
      db.createObjectStore('photo-bytes', { keyPath: 'id' });
      // The stock journal: one small record a line, by material and time.
      db.createObjectStore('movements', { keyPath: ['materialId', 'at', 'id'] });
    },
  },
];

/** Brings one record that was written at `fromVersion` to today's shape. */
export function climb(
  storeName: string,
  record: Old,
  fromVersion: number,
  rungs: readonly Rung[] = ladder,
): Old {
  let current = record;
  for (const rung of rungs.slice(fromVersion)) {
    current = rung.records?.[storeName]?.(current) ?? current;
  }
  return current;
}
