import { tableOf } from '#calc/table.ts';
import type { Entry, EntryId, SessionId } from '#model/entry.ts';
import type { SealedSession } from '#model/session.ts';
import type { Book } from '#store/book.ts';
import type { OpenFile, Watch } from '#store/copy/file.ts';
import { type Fault, type Fitting, fitting } from '#store/copy/fit.ts';
import type { Carried } from '#store/copy/header.ts';
import { isSame, type Unit, unitsOf, type Write, writesFor } from '#store/copy/writes.ts';

/** One thing that a file brings or changes. */
export interface Coming {
  table: Carried;
  /** `takes-off`: it was on a list here and is taken off it. */
  what: 'brings' | 'changes' | 'takes-off';
  /** Comes already taken off its list: nobody sees it. */
  isOff: boolean;
  /** The name it has, or the words it says; empty for what has none. */
  name: string;
  /** Only of sessions. */
  session: ComingSession | null;
  /** Only of things that change: each fact of them that does. */
  fields: readonly ChangedField[];
}

/** A session that comes, or lines of it. */
export interface ComingSession {
  sessionId: SessionId;
  startedAt: number;
  zone: string;
  shots: number;
  /** The lines that are not here yet, corrections and undo included. */
  newIds: readonly EntryId[];
  /** All its lines once they are in; null: they are in, and read from the logbook. */
  entries: readonly Entry[] | null;
}

/** One fact of a thing that a file changes. */
export interface ChangedField {
  field: string;
  before: unknown;
  after: unknown;
}

/** What a file would do to the logbook. */
export interface Difference {
  /** At most `listed` of them, in the order of the file. */
  list: readonly Coming[];
  counts: ReadonlyMap<string, number>;
  /** Records that are here already. */
  same: number;
  /** Records that no table would hold; they are left out. */
  faults: readonly Fault[];
}

const listed = 300;

/** The number of things of one kind that a file would bring, change or take off. */
export function countOf(
  { counts }: Difference,
  table: Carried,
  what: Coming['what'] | 'brings-off',
): number {
  return counts.get(`${table} ${what}`) ?? 0;
}

/** How many things that come are not in the list. */
export function unlisted({ list, counts }: Difference): number {
  const shown = [...counts].filter(([key]) => !key.endsWith('brings-off'));
  return shown.reduce((sum, [, count]) => sum + count, 0) - list.length;
}

/** Whether the file would change anything at all. */
export function isNothing({ counts }: Difference): boolean {
  return counts.size === 0;
}

/** Reads a whole file and says what it would do. Writes nothing. */
export async function differenceOf(
  book: Book,
  open: OpenFile,
  watch: Watch = {},
): Promise<Difference> {
  const tally = newTally();
  for await (const unit of unitsOf(sound(open, watch, tally.faults))) {
    const tx = book.db.transaction(book.db.objectStoreNames as never);
    const writes = await writesOrFault(tx as never, unit, tally);
    if (writes) tally.add(unit, writes);
  }
  return tally.done();
}

/** The records of a file that fit; what is wrong with the others is added to `faults`. */
export async function* sound(
  open: OpenFile,
  watch: Watch,
  faults: Fault[],
): AsyncGenerator<Fitting> {
  for await (const one of fitting(open, watch)) {
    if ('reason' in one) faults.push(one);
    else yield one;
  }
}

/** The writes of a unit; null when its lines add up to no session. */
export async function writesOrFault(
  tx: Parameters<typeof writesFor>[0],
  unit: Unit,
  { faults, photos }: Pick<Tally, 'faults' | 'photos'>,
): Promise<Write[] | null> {
  try {
    return await writesFor(tx, unit, photos);
  } catch (error) {
    if (error instanceof DOMException) throw error;
    faults.push({ table: unit.table, line: unit.line, reason: 'Its lines make no session.' });
    return null;
  }
}

/** Adds up what comes in. */
export type Tally = ReturnType<typeof newTally>;

/** Nothing has come in yet. */
export function newTally() {
  const list: Coming[] = [];
  const counts = new Map<string, number>();
  const faults: Fault[] = [];
  const photos = new Set<string>();
  let same = 0;
  return {
    faults,
    /** The photos that the file has held so far. */
    photos,
    add(unit: Unit, writes: readonly Write[]) {
      if (unit.table === 'photos') {
        for (const photo of unit.records as { id: string }[]) photos.add(photo.id);
      }
      if (writes.length === 0) {
        same += unit.records.length;
        return;
      }
      const coming = comingOf(unit, writes);
      const key = `${unit.table} ${coming.what}${coming.isOff ? '-off' : ''}`;
      counts.set(key, (counts.get(key) ?? 0) + 1);
      if (list.length < listed && !coming.isOff) list.push(coming);
    },
    done: (): Difference => ({ list, counts, same, faults }),
  };
}

function comingOf({ table, records }: Unit, writes: readonly Write[]): Coming {
  if (table === 'sealed' || table === 'entries') return sessionComing(table, writes);
  const [{ before, after } = { before: undefined, after: undefined }] = writes;
  const wasOff = isOff(before);
  const name = nameOf((after ?? records[0]) as Record<string, unknown>);
  const about = { table, name, session: null, fields: changedFields(before, after) };
  if (before === undefined) return { ...about, what: 'brings', isOff: isOff(after) };
  return { ...about, what: isOff(after) && !wasOff ? 'takes-off' : 'changes', isOff: false };
}

function sessionComing(table: Carried, writes: readonly Write[]): Coming {
  const linesOf = (side: 'before' | 'after') =>
    writes.flatMap((write): Entry[] => {
      if (!write[side]) return [];
      if (write.table === 'sealed') return [...(write[side] as SealedSession).entries];
      return write.table === 'entries' ? [write[side] as Entry] : [];
    });
  const [before, after] = [linesOf('before'), linesOf('after')];
  const { begunAt, zone, shots } = tableOf(after);
  const known = new Set(before.map(({ id }) => id));
  const newIds = new Set(after.map(({ id }) => id).filter((id) => !known.has(id)));
  const session: ComingSession = {
    sessionId: (after[0] as Entry).sessionId,
    startedAt: begunAt,
    zone,
    shots: shots.length,
    newIds: [...newIds],
    entries: after,
  };
  const what = before.length === 0 ? 'brings' : 'changes';
  return { table, what, isOff: false, name: '', session, fields: [] };
}

/** What a head says otherwise afterwards; who wrote it when is no fact of it. */
function changedFields(before: unknown, after: unknown): ChangedField[] {
  if (!isRecord(before) || !isRecord(after)) return [];
  const fields = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...fields]
    .filter((field) => !aboutWriting.has(field) && !isSame(before[field], after[field]))
    .map((field) => ({ field, before: before[field] ?? null, after: after[field] ?? null }));
}
const aboutWriting: ReadonlySet<string> = new Set(['id', 'device', 'stamps', 'createdAt']);

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

/** The same as it is kept aside: what lies in the logbook by then is not kept twice. */
export function keptDifference(difference: Difference): Difference {
  const list = difference.list.map((coming) =>
    coming.session ? { ...coming, session: { ...coming.session, entries: null } } : coming,
  );
  return { ...difference, list };
}

function isOff(record: unknown): boolean {
  const deletedAt = (record as { deletedAt?: number | null } | undefined)?.deletedAt;
  return deletedAt !== null && deletedAt !== undefined;
}

function nameOf(record: Record<string, unknown>): string {
  const { name, text, sides } = record;
  if (typeof name === 'string') return name;
  if (typeof text === 'string') return text.slice(0, 60);
  if (!Array.isArray(sides)) return '';
  return sides.map((side: { name?: string }) => side.name ?? '').join(' / ');
}
