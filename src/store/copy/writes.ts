import type { IDBPTransaction } from 'idb';
import { columnsOf } from '#calc/columns.ts';
import { mergedEntries, mergedHead } from '#calc/merge.ts';
import { tableOf } from '#calc/table.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { Movement } from '#model/movement.ts';
import type { SealedSession } from '#model/session.ts';
import type { Fitting } from '#store/copy/fit.ts';
import type { Carried } from '#store/copy/header.ts';
import type { Logbook, Table } from '#store/db.ts';

/** One key of one table: what lay there, and what is to lie there. `undefined`: nothing. */
export interface Write {
  table: Table;
  key: IDBValidKey;
  before: unknown;
  after: unknown;
}

/** What comes in as one thing: a record, or all lines of one running session. */
export interface Unit {
  table: Carried;
  records: readonly unknown[];
  line: number;
}

type Reading = IDBPTransaction<Logbook, Table[], 'readonly' | 'readwrite'>;
type Head = Parameters<typeof mergedHead>[0];

/** Records one by one, but the lines of a running session together. */
export async function* unitsOf(records: AsyncIterable<Fitting>): AsyncGenerator<Unit> {
  let held: { table: Carried; records: Entry[]; line: number } | null = null;
  for await (const { table, record, line } of records) {
    const sessionId = table === 'entries' ? (record as Entry).sessionId : null;
    if (held && held.records[0]?.sessionId === sessionId) {
      held.records.push(record as Entry);
      continue;
    }
    if (held) yield held;
    held = sessionId ? { table, records: [record as Entry], line } : null;
    if (!held) yield { table, records: [record], line };
  }
  if (held) yield held;
}

/**
 * What taking this in means for the logbook: none when it is all there already. Heads are merged
 * field by field, sessions and the stock journal line by line; what is here is never lost.
 * `comingPhotos` are the photos of the same file: bytes without their photo are left out.
 */
export async function writesFor(
  tx: Reading,
  { table, records }: Unit,
  comingPhotos: ReadonlySet<string>,
): Promise<Write[]> {
  const [record] = records;
  if (table === 'sealed') return await sessionWrites(tx, record as SealedSession);
  if (table === 'entries') {
    const entries = records as Entry[];
    return await sessionWrites(tx, { id: (entries[0] as Entry).sessionId, entries });
  }
  if (table === 'movements') return await movementWrites(tx, record as Movement);
  const { id } = record as { id: string };
  const before: unknown = await tx.objectStore(table).get(id);
  if (table === 'photo-bytes') {
    const isKnown =
      comingPhotos.has(id) || (await tx.objectStore('photos').getKey(id)) !== undefined;
    return before || !isKnown ? [] : [{ table, key: id, before, after: record }];
  }
  const after = before ? mergedHead(before as Head, record as Head) : record;
  return isSame(before, after) ? [] : [{ table, key: id, before, after }];
}

async function movementWrites(tx: Reading, movement: Movement): Promise<Write[]> {
  const key: [string, number, string] = [movement.materialId, movement.at, movement.id];
  const isHere = (await tx.objectStore('movements').getKey(key)) !== undefined;
  return isHere ? [] : [{ table: 'movements', key, before: undefined, after: movement }];
}

/** A session is sealed when all its lines together say that it has ended, and runs otherwise. */
async function sessionWrites(
  tx: Reading,
  theirs: { id: SessionId; entries: readonly Entry[] },
): Promise<Write[]> {
  const { id } = theirs;
  const sealed = await tx.objectStore('sealed').get(id);
  const running = await tx.objectStore('entries').getAll(rangeOf(id));
  const mine = [...(sealed?.entries ?? []), ...running];
  // Of two lines with one id the one that is here stays.
  const entries = mergedEntries(theirs.entries, mine);
  if (entries.length === mine.length) return [];
  const table = tableOf(entries);
  const endedAt = table.endedAt;
  const columns = endedAt === null ? undefined : columnsOf(id, entries);
  const oldKey = sealed && [sealed.startedAt, id];
  const oldColumns =
    sealed && (await tx.objectStore('columns').get([sealed.startedAt, sealed.id as string]));
  const newKey = [table.begunAt, id];
  const after: SealedSession | undefined =
    endedAt === null
      ? undefined
      : {
          ...(theirs as Partial<SealedSession>),
          ...sealed,
          id,
          startedAt: table.begunAt,
          endedAt,
          zone: table.zone,
          entries,
        };
  const runningKeys = new Map(running.map((entry) => [entry.id, entry]));
  const lines = endedAt === null ? entries : running;
  const isMoved = oldKey && (!columns || oldKey[0] !== newKey[0]);
  return [
    ...(sealed || after ? [{ table: 'sealed' as const, key: id, before: sealed, after }] : []),
    ...(isMoved ? [column(oldKey, oldColumns, undefined)] : []),
    ...(columns ? [column(newKey, isMoved ? undefined : oldColumns, columns)] : []),
    ...lines
      .map((entry) => ({
        table: 'entries' as const,
        key: [id, entry.stamp, entry.id],
        before: runningKeys.get(entry.id),
        after: endedAt === null ? entry : undefined,
      }))
      .filter(({ before, after: next }) => before !== next),
  ];
}

function column(key: IDBValidKey, before: unknown, after: unknown): Write {
  return { table: 'columns', key, before, after };
}

/** The running lines of one session. */
export function rangeOf(sessionId: string): IDBKeyRange {
  return IDBKeyRange.bound([sessionId, ''], [sessionId, '\uffff']);
}

/** Whether two records say the same, in whatever order their fields stand. */
export function isSame(a: unknown, b: unknown): boolean {
  return textOf(a) === textOf(b);
}

function textOf(value: unknown): string {
  return (
    JSON.stringify(value, (_, part: unknown) =>
      part && typeof part === 'object' && !Array.isArray(part)
        ? Object.fromEntries(Object.entries(part).sort(([one], [other]) => (one < other ? -1 : 1)))
        : part,
    ) ?? ''
  );
}
