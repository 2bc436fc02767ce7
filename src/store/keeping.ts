import { crc32 } from '#calc/crc32.ts';
import type { Db, Table } from '#store/db.ts';
import { type Held, noneHeld } from '#store/held.ts';
import { addLines, type Journal, keysIn, type Paper, sumIn } from '#store/journal.ts';
import { lineSum } from '#store/journal-line.ts';
import { ladder } from '#store/ladder.ts';

/**
 * How each table is kept in the second copy. A new table does not compile until it is told here.
 * `heads` can change and have a stamp per field; `lines` and `entries` are written once; `sealed` is
 * kept without its entries, which have lines of their own; of `sums` only a checksum is kept, because
 * they can be worked out again; `bytes` are too large; the rest is of no use elsewhere.
 */
const keeping = {
  moulds: 'heads',
  injectors: 'heads',
  colourways: 'heads',
  settings: 'heads',
  materials: 'heads',
  mixes: 'heads',
  photos: 'heads',
  remarks: 'heads',
  ideas: 'heads',
  changes: 'heads',
  movements: 'lines',
  entries: 'entries',
  sealed: 'sealed',
  columns: 'sums',
  'photo-bytes': 'bytes',
  drafts: 'not',
  meta: 'not',
} as const satisfies Record<
  Table,
  'heads' | 'lines' | 'entries' | 'sealed' | 'sums' | 'bytes' | 'not'
>;

type TablesKept<How> = {
  [T in Table]: (typeof keeping)[T] extends How ? T : never;
}[Table];
export type HeadTable = TablesKept<'heads'>;
export type LooseTable = TablesKept<'heads' | 'lines'>;

/** Tables whose records stand by themselves. */
export const looseTables = tablesKept('heads', 'lines') as LooseTable[];
/** Every table that is read for the second copy. */
export const keptTables = tablesKept('heads', 'lines', 'entries', 'sealed', 'sums');

/** One record as the second copy holds it. */
export interface Row {
  table: Table;
  key: string;
  record: unknown;
  /** Where it lies in its table; of an entry that was sealed, where its session lies. */
  dbKey: IDBValidKey;
}

/** The open logbook and its open second copy; null: the device keeps no files. */
export interface Copy {
  db: Db;
  journal: Journal;
  paper: Paper | null;
}

/** Every record of some tables, in the order of the tables, from one moment of the database. */
export async function* rowsIn(db: Db, tables: readonly Table[]): AsyncGenerator<Row> {
  const tx = db.transaction(tables);
  for (const table of tables) {
    const store = tx.objectStore(table);
    let range: IDBKeyRange | undefined;
    while (true) {
      // Keys and values are asked for together: the transaction stays open.
      const [keys, values] = await Promise.all([
        store.getAllKeys(range, batchSize),
        store.getAll(range, batchSize),
      ]);
      for (const [index, value] of values.entries()) {
        yield* rowsOf(table, keys[index] as IDBValidKey, value);
      }
      const last = keys.at(-1);
      if (last === undefined || keys.length < batchSize) break;
      range = IDBKeyRange.lowerBound(last, true);
    }
  }
}
const batchSize = 200;

/**
 * Writes what the second copy does not have yet. What is written once is looked up by its key alone.
 * With `isTrusted`, what the copy has and the tables do not was taken out by hand, and is taken out
 * here too: true after a write that was announced, never at a start.
 */
export async function catchUp(
  copy: Copy,
  tables: readonly Table[],
  isTrusted = false,
): Promise<void> {
  const { db, journal, paper } = copy;
  if (!paper) return;
  // Only a session that ends, or a file taken out again, moves or removes entries. A press adds one.
  const isMoved = isTrusted && (tables.includes('sealed') || tables.includes('meta'));
  const asked = keptTables.filter(
    (table) => tables.includes(table) || (isMoved && (table === 'entries' || table === 'sealed')),
  );
  if (asked.length === 0) return;
  const rows: Row[] = [];
  const seen = new Map<Table, Set<string>>(asked.map((table) => [table, new Set()]));
  for await (const row of rowsIn(db, asked)) {
    seen.get(row.table)?.add(row.key);
    const sum = sumIn(journal, row.table, row.key);
    if (sum !== undefined && row.table === 'entries') continue;
    // A key that was damaged into two words would not read back; the check sees to its record.
    if (sum !== sumOf(row) && !/\s/.test(row.key)) rows.push(row);
  }
  for (const table of isTrusted ? asked : []) {
    if (table === 'entries' && !isMoved) continue;
    const gone = keysIn(journal, table).filter((key) => !seen.get(table)?.has(key));
    rows.push(...gone.map((key) => ({ table, key, record: null, dbKey: key })));
  }
  addLines(journal, paper, rows);
}

/** The checksum that the line of a row has today. */
export function sumOf({ table, key, record }: Row): number {
  return lineSum({ table, key, record, version: ladder.length });
}

/** How much the logbook holds. Counted in the database, so that it can be set against the copy. */
export async function heldIn(db: Db): Promise<Held> {
  const held: Held = { ...noneHeld, ...(await picturesIn(db)) };
  const sessions = new Set<string>();
  const tables = keptTables.filter((table) => table !== 'columns');
  for await (const { table, key } of rowsIn(db, tables)) {
    if (table === 'sealed') continue;
    held.records += 1;
    if (table === 'moulds') held.moulds += 1;
    else if (table !== 'entries' && table !== 'settings') held.others += 1;
    if (table !== 'entries') continue;
    held.entries += 1;
    sessions.add(sessionOf(key));
  }
  held.sessions = sessions.size;
  return held;
}

/** How many photos have their picture, and how many have lost it. */
export async function picturesIn(db: Db): Promise<Pick<Held, 'pictures' | 'bare'>> {
  const tx = db.transaction(['photos', 'photo-bytes']);
  const [heads, keys] = await Promise.all([
    tx.objectStore('photos').getAll(),
    tx.objectStore('photo-bytes').getAllKeys(),
  ]);
  const withBytes = new Set(keys);
  const live = heads.filter((head) => head?.deletedAt === null);
  const pictures = live.filter(({ id }) => withBytes.has(id)).length;
  return { pictures, bare: live.length - pictures };
}

/** How much the second copy holds; no pictures. */
export function heldInCopy(journal: Journal): Held {
  const countOf = (table: Table) => keysIn(journal, table).length;
  const entries = keysIn(journal, 'entries');
  const loose = looseTables.reduce((sum, table) => sum + countOf(table), 0);
  return {
    ...noneHeld,
    sessions: new Set(entries.map(sessionOf)).size,
    entries: entries.length,
    moulds: countOf('moulds'),
    others: loose - countOf('moulds') - countOf('settings'),
    records: entries.length + loose,
  };
}

/** The session that the key of an entry's line names. */
export function sessionOf(key: string): string {
  return key.slice(0, key.indexOf('/'));
}

/**
 * The rows that one stored value is kept as. Their keys are read off the database's own key: a
 * damaged value may be anything, even nothing at all.
 */
function* rowsOf(table: Table, dbKey: IDBValidKey, value: unknown): Generator<Row> {
  const [first, , third] = Array.isArray(dbKey) ? dbKey.map(String) : [];
  const record = (value ?? {}) as Record<string, unknown>;
  switch (table) {
    case 'entries':
      yield { table, key: `${first}/${third}`, record: value, dbKey };
      return;
    case 'sealed': {
      const { entries, ...head } = record;
      yield { table, key: String(dbKey), record: value ? head : value, dbKey };
      for (const entry of Array.isArray(entries) ? entries : []) {
        yield { table: 'entries', key: `${dbKey}/${entry?.id}`, record: entry, dbKey };
      }
      return;
    }
    case 'columns':
      yield { table, key: String((dbKey as IDBValidKey[])[1]), record: packedSum(record), dbKey };
      return;
    default:
      yield { table, key: third ?? String(dbKey), record: value, dbKey };
  }
}

/** A checksum over a digest, whose packed arrays JSON would spell out. */
function packedSum(columns: Record<string, unknown>): string {
  return Object.entries(columns)
    .map(([field, value]) => {
      if (!ArrayBuffer.isView(value)) return `${field} ${JSON.stringify(value)}`;
      const { buffer, byteOffset, byteLength } = value;
      return `${field} ${crc32(new Uint8Array(buffer, byteOffset, byteLength))}`;
    })
    .join(' ');
}

function tablesKept(...how: readonly string[]): Table[] {
  return (Object.keys(keeping) as Table[]).filter((table) => how.includes(keeping[table]));
}
