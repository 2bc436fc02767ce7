import { openDB } from 'idb';
import { dayOf } from '#calc/days.ts';

/** A logbook as text, whatever its shape. */
export interface RawLogbook {
  file: File;
  records: number;
  /** Pictures whose bytes are left out. */
  pictures: number;
}

const batchSize = 100;

/**
 * The logbook `name` as lines of JSON, a record a line, whatever version wrote it: it is opened as it
 * is and only read. The bytes of pictures are left out and counted. Rejects where there is none.
 */
export async function rawLogbook(name: string, at: number, zone: string): Promise<RawLogbook> {
  const db = await openDB(name, undefined, {
    // Only a database that is not there would be made here.
    upgrade: (_db, _old, _new, tx) => {
      tx.done.catch(() => {});
      tx.abort();
    },
    blocking: (_current, _wanted, event) => (event.target as IDBDatabase).close(),
  });
  try {
    const told = { records: 0, pictures: 0 };
    const lineOf = (value: unknown) => `${JSON.stringify(value, plainly(told))}\n`;
    const head = { logbook: db.name, shape: db.version, at: new Date(at).toISOString() };
    const pieces: (string | Blob)[] = [lineOf(head)];
    for (const table of db.objectStoreNames) {
      let range: IDBKeyRange | undefined;
      while (true) {
        const { store } = db.transaction(table);
        const [keys, records] = await Promise.all([
          store.getAllKeys(range, batchSize),
          store.getAll(range, batchSize),
        ]);
        const lines = records.map((record, index) => lineOf({ table, key: keys[index], record }));
        pieces.push(new Blob(lines));
        told.records += records.length;
        const last = keys.at(-1);
        if (last === undefined || keys.length < batchSize) break;
        range = IDBKeyRange.lowerBound(last, true);
      }
    }
    pieces.push(lineOf({ end: told.records, picturesLeftOut: told.pictures }));
    const fileName = `warmshot-${dayOf(at, zone)}-newer.jsonl`;
    return { file: new File(pieces, fileName, { type: 'application/jsonl' }), ...told };
  } finally {
    db.close();
  }
}

/** How a record of any shape is written: packed figures one by one, bytes left out. */
function plainly(told: { pictures: number }) {
  return (_key: string, value: unknown): unknown => {
    if (ArrayBuffer.isView(value)) return [...(value as Uint8Array)];
    if (value instanceof Map || value instanceof Set) return [...value];
    if (typeof value === 'bigint') return String(value);
    if (!(value instanceof ArrayBuffer || value instanceof Blob)) return value;
    told.pictures += 1;
    return { bytesLeftOut: value instanceof Blob ? value.size : value.byteLength };
  };
}
