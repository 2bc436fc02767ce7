import type { IDBPTransaction } from 'idb';
import { columnsOf } from '#calc/columns.ts';
import { inStampOrder } from '#calc/log.ts';
import { settledHead } from '#calc/settle.ts';
import { laterStamp } from '#calc/stamp.ts';
import { tableOf } from '#calc/table.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { Instant, Stamp } from '#model/schemas.ts';
import type { SealedSession } from '#model/session.ts';
import type { AsideMeta, Logbook, Table } from '#store/db.ts';
import { count, type Findings, noTally } from '#store/findings.ts';
import { keysIn, recordIn, sumIn } from '#store/journal.ts';
import {
  type Copy,
  keptTables,
  type LooseTable,
  looseTables,
  rowsIn,
  sessionOf,
  sumOf,
} from '#store/keeping.ts';
import { announce } from '#store/notice.ts';
import { fits } from '#store/schemas.ts';
import { whole } from '#store/whole.ts';

/** What the first look found: it only reads. */
interface Suspects {
  loose: { table: LooseTable; key: string; dbKey: IDBValidKey }[];
  sessions: Set<string>;
  /** Keys of the digests by session: more than one where damage changed the time in a key. */
  digests: Map<string, [startedAt: number, sessionId: string][]>;
  /** Keys of the lines of entries by session. */
  lines: Map<string, string[]>;
  newestStamp: Stamp | null;
}

/**
 * Looks at every record of the logbook: whether it is there, reads as its kind should, and says what
 * its line in the second copy says. What is missing or damaged is put back by the one merge; what
 * cannot be read in either place is set aside. The second copy is not written.
 */
export async function checkLogbook(copy: Copy, at: Instant): Promise<Findings> {
  const suspects = await suspectsIn(copy);
  const findings: Findings = {
    putBack: { ...noTally },
    putRight: { ...noTally },
    setAside: 0,
    asideOf: { entries: 0, moulds: 0, others: 0 },
    damagedLines: copy.journal.damaged,
    newestStamp: suspects.newestStamp,
  };
  for (const one of suspects.loose) await settleLoose(copy, one, findings, at);
  for (const sessionId of suspects.sessions) {
    await settleSession(copy, { sessionId, suspects }, findings, at);
  }
  if (suspects.loose.length + suspects.sessions.size > 0) announce(...keptTables, 'meta');
  copy.journal.damaged = 0;
  return findings;
}

/** Reads everything once, in one moment of the database. */
async function suspectsIn(copy: Copy): Promise<Suspects> {
  const { db, journal } = copy;
  const found: Suspects = {
    loose: [],
    sessions: new Set(),
    digests: grouped(await db.getAllKeys('columns'), ([, sessionId]) => sessionId),
    lines: grouped(keysIn(journal, 'entries'), sessionOf),
    newestStamp: null,
  };
  const seen = new Map<Table, Set<string>>(keptTables.map((table) => [table, new Set()]));
  for await (const row of rowsIn(db, keptTables)) {
    const { table, key, record, dbKey } = row;
    seen.get(table)?.add(key);
    const sum = sumIn(journal, table, key);
    const isSame = sum === undefined || sum === sumOf(row);
    const isWhole =
      table === 'columns' ||
      fits(table, table === 'sealed' ? { ...(record as object), entries: [] } : record);
    if (isWhole) found.newestStamp = laterStamp(found.newestStamp, newestStampOf(record));
    if (isSame && isWhole) continue;
    if (isLoose(table)) found.loose.push({ table, key, dbKey });
    else found.sessions.add(table === 'entries' ? sessionOf(key) : key);
  }
  for (const table of looseTables) {
    const missing = keysIn(journal, table).filter((key) => !seen.get(table)?.has(key));
    found.loose.push(...missing.map((key) => ({ table, key, dbKey: key })));
  }
  for (const key of keysIn(journal, 'entries')) {
    if (!seen.get('entries')?.has(key)) found.sessions.add(sessionOf(key));
  }
  const [sealed, digests] = [seen.get('sealed'), seen.get('columns')];
  for (const id of sealed ?? []) if (!digests?.has(id)) found.sessions.add(id);
  for (const id of digests ?? []) if (!sealed?.has(id)) found.sessions.add(id);
  return found;
}

/** Settles one head or line, against whatever the person did meanwhile. */
async function settleLoose(
  { db, journal, paper }: Copy,
  { table, key, dbKey }: Suspects['loose'][number],
  findings: Findings,
  at: Instant,
): Promise<void> {
  const kept = paper ? recordIn(journal, paper, table, key) : undefined;
  const line = fits(table, kept) ? kept : undefined;
  const lineKey = line === undefined ? dbKey : dbKeyOf(table, line);
  const tx = db.transaction([table, 'meta'], 'readwrite', { durability: 'strict' });
  const store = tx.objectStore(table);
  const row: unknown = await store.get(dbKey as never);
  const isWhole = fits(table, row);
  const next = isWhole ? (line ? settled(table, row, line) : row) : line;
  if (next !== undefined && JSON.stringify(next) !== JSON.stringify(row)) {
    await store.put(next as never);
    count(row === undefined ? findings.putBack : findings.putRight, table);
  }
  if (row !== undefined && next === undefined) {
    await tx.objectStore('meta').put(asideOf(table, key, row, at));
    findings.setAside += 1;
    findings.asideOf[table === 'moulds' ? 'moulds' : 'others'] += 1;
  }
  // A row that was moved by damage to its own key must not stay beside the right one.
  if (row !== undefined && (next === undefined || `${lineKey}` !== `${dbKey}`)) {
    await store.delete(dbKey as never);
  }
  await tx.done;
  findings.newestStamp = laterStamp(findings.newestStamp, newestStampOf(next));
}

/** Where the parts of a session lie. */
const sessionTables: ('entries' | 'sealed' | 'columns' | 'meta')[] = [
  'entries',
  'sealed',
  'columns',
  'meta',
];

/** Settles one session: every entry that either place has, in the table where it belongs. */
async function settleSession(
  copy: Copy,
  suspect: { sessionId: string; suspects: Suspects },
  findings: Findings,
  at: Instant,
): Promise<void> {
  const tx = copy.db.transaction(sessionTables, 'readwrite', { durability: 'strict' });
  // The old place is emptied before the new one is filled: both or neither.
  await whole(tx, [() => settleIn(tx, copy, suspect, findings, at)]);
}

async function settleIn(
  tx: IDBPTransaction<Logbook, typeof sessionTables, 'readwrite'>,
  { journal, paper }: Copy,
  { sessionId: id, suspects }: { sessionId: string; suspects: Suspects },
  findings: Findings,
  at: Instant,
): Promise<void> {
  const lines = (suspects.lines.get(id) ?? [])
    .map((key) => (paper ? recordIn(journal, paper, 'entries', key) : undefined))
    .filter((record): record is Entry => fits('entries', record));
  const range = IDBKeyRange.bound([id, ''], [id, '\uffff']);
  const [runningIds, running] = await Promise.all([
    tx.objectStore('entries').getAllKeys(range),
    tx.objectStore('entries').getAll(range),
  ]);
  const sealed = await tx.objectStore('sealed').get(id);
  const rows: { id: string; row: Entry }[] = [
    ...running.map((row, index) => ({ id: runningIds[index]?.[2] ?? '', row })),
    ...(Array.isArray(sealed?.entries) ? sealed.entries : []).map((row) => ({ id: row?.id, row })),
  ];
  const sound = rows.filter(({ row }) => fits('entries', row)).map(({ row }) => row);
  // The lines come last: of two entries with one id the later one is taken.
  const entries = inStampOrder([...sound, ...lines]);
  const isSession = entries.some(({ said }) => said.kind === 'session-begun');
  for (const one of rows) {
    if (sound.includes(one.row) || lines.some((line) => line.id === one.id)) continue;
    await tx.objectStore('meta').put(asideOf('entries', `${id}/${one.id}`, one.row, at));
    findings.setAside += 1;
    findings.asideOf.entries += 1;
  }
  const before = JSON.stringify(
    rows.length === sound.length ? inStampOrder(sound) : rows.map(({ row }) => row),
  );
  await tx.objectStore('entries').delete(range);
  await Promise.all([tx.objectStore('sealed').delete(id), tx.objectStore('meta').delete('told')]);
  for (const key of suspects.digests.get(id) ?? []) await tx.objectStore('columns').delete(key);
  if (Number.isFinite(sealed?.startedAt) && sealed)
    await tx.objectStore('columns').delete([sealed.startedAt, sealed.id]);
  if (!isSession && entries.length > 0) {
    await tx.objectStore('meta').put(asideOf('sealed', id, { ...sealed, id, entries }, at));
    findings.setAside += 1;
    findings.asideOf.entries += entries.length;
  } else if (entries.length > 0) {
    const table = tableOf(entries);
    if (table.endedAt === null) {
      for (const entry of entries) await tx.objectStore('entries').put(entry);
    } else {
      const head = paper ? recordIn(journal, paper, 'sealed', id) : undefined;
      const digest = columnsOf(id as SessionId, entries);
      const { startedAt, endedAt, zone } = digest;
      await tx.objectStore('sealed').put({
        ...(typeof head === 'object' ? head : {}),
        ...sealed,
        ...{ id: id as SessionId, startedAt, endedAt, zone, entries },
      } as SealedSession);
      await tx.objectStore('columns').put(digest);
    }
    if (JSON.stringify(entries) !== before) {
      const had = new Set<string>(rows.map((one) => one.id));
      const isBack = entries.some((entry) => !had.has(entry.id));
      count(isBack ? findings.putBack : findings.putRight, 'sealed');
    }
  }
  findings.newestStamp = laterStamp(findings.newestStamp, entries.at(-1)?.stamp ?? null);
}

function settled(table: LooseTable, row: unknown, line: unknown): unknown {
  // A line of the stock journal is written once: where the two differ, the one with a checksum is right.
  return table === 'movements' ? line : settledHead(row as never, line as never);
}

function asideOf(table: Table, key: string, record: unknown, foundAt: Instant): AsideMeta {
  return { name: `aside ${table} ${key}`, table, key, record, foundAt };
}

function dbKeyOf(table: Table, record: unknown): IDBValidKey {
  const { id, materialId, at } = record as Record<string, string>;
  return table === 'movements' ? ([materialId, at, id] as IDBValidKey) : (id as IDBValidKey);
}

function grouped<T>(all: readonly T[], keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const group = groups.get(keyOf(one));
    if (group) group.push(one);
    else groups.set(keyOf(one), [one]);
  }
  return groups;
}

function isLoose(table: Table): table is LooseTable {
  return (looseTables as readonly Table[]).includes(table);
}

function newestStampOf(record: unknown): Stamp | null {
  const { stamp, stamps } = (record ?? {}) as { stamp?: Stamp; stamps?: Record<string, Stamp> };
  return [stamp, ...Object.values(stamps ?? {})].reduce<Stamp | null>(
    (newest, one) => laterStamp(newest, one ?? null),
    null,
  );
}
