import { type Line, type LineMark, lineBytes, markOf, recordOf } from '#store/journal-line.ts';
import { climb, ladder } from '#store/ladder.ts';

/** A file that is open for reading and adding; nobody else has it open. */
export interface Paper {
  size(): number;
  read(at: number, length: number): Uint8Array;
  /** Adds at the end. Throws when the device has no room. */
  add(bytes: Uint8Array): void;
  /** Drops everything from `size` on. */
  cut(size: number): void;
  /** Returns once everything is on disk. */
  flush(): void;
  close(): void;
}

/** The folder of the second copy. */
export interface Drawer {
  names(): Promise<string[]>;
  /** Opens a file, making it if it is not there. Rejects while another window has it open. */
  open(name: string): Promise<Paper>;
  remove(name: string): Promise<void>;
}

/** Where the newest line of a record lies. */
interface Place extends LineMark {
  at: number;
  length: number;
}

/**
 * The second copy, as far as it was read: for every record its newest line. Lines are only ever
 * added; an older line of the same record stays until the file is written anew.
 */
export interface Journal {
  /** Files are numbered; the newest whole one counts. 0: none was written yet. */
  file: number;
  /** How far the file was read. */
  readTo: number;
  /** By table and key. */
  places: Map<string, Map<string, Place>>;
  /** Bytes of lines that a newer one has replaced, and of damaged ones. */
  staleBytes: number;
  /** Lines whose checksum was wrong. */
  damaged: number;
  /** The newest shape of the data that a line was written in. */
  newest: number;
}

/** What a file begins its life with when it is a rewrite of an older one, once that is complete. */
const endMark: Line = { version: ladder.length, table: 'all', key: 'written', record: 0 };
const chunkBytes = 1 << 20;
const fileName = (file: number) => `${file}.log`;

/** A journal nothing is known of yet. */
export function blankJournal(): Journal {
  const places = new Map<string, Map<string, Place>>();
  return { file: 0, readTo: 0, places, staleBytes: 0, damaged: 0, newest: 0 };
}

/**
 * Opens the newest whole file and reads what was added since the journal was last open, here or in
 * another window. A torn end, left by a kill in the middle of a write, is cut off.
 */
export async function openJournal(journal: Journal, drawer: Drawer): Promise<Paper> {
  const files = (await filesIn(drawer)).reverse();
  const isTheOne = async (file: number, paper: Paper) => {
    const fresh = file === journal.file && paper.size() >= journal.readTo;
    if (!fresh) Object.assign(journal, blankJournal(), { file });
    readOn(journal, paper);
    // A rewrite that was killed half-way stands beside the file it should replace.
    const isWhole = journal.places.get(endMark.table)?.has(endMark.key);
    if (!isWhole && files.at(-1) !== file) return false;
    await removeAllBut(drawer, file);
    return true;
  };
  for (const file of files) {
    const paper = await drawer.open(fileName(file));
    if (await closedIfItFails(paper, () => isTheOne(file, paper))) return paper;
    paper.close();
  }
  Object.assign(journal, blankJournal(), { file: 1 });
  return await drawer.open(fileName(1));
}

/** Adds records, all of them flushed to disk in one go. */
export function addLines(
  journal: Journal,
  paper: Paper,
  records: readonly Omit<Line, 'version'>[],
): void {
  if (records.length === 0) return;
  addAll(
    paper,
    records.map((record) => lineBytes({ ...record, version: ladder.length })),
  );
  paper.flush();
  readOn(journal, paper);
}

/** The keys of a table of which the journal has a line. */
export function keysIn(journal: Journal, table: string): string[] {
  return [...(journal.places.get(table)?.keys() ?? [])];
}

/** The checksum of the newest line of a record; undefined when there is none. */
export function sumIn(journal: Journal, table: string, key: string): number | undefined {
  return journal.places.get(table)?.get(key)?.sum;
}

/** The newest copy of a record in today's shape; undefined when there is none. */
export function recordIn(journal: Journal, paper: Paper, table: string, key: string): unknown {
  const place = journal.places.get(table)?.get(key);
  if (!place) return undefined;
  const record = recordOf(paper.read(place.at, place.length));
  return place.version === ladder.length ? record : climb(table, record as never, place.version);
}

/** Whether the file holds so much of no use, or such old shapes, that it should be written anew. */
export function wantsRewrite(journal: Journal, paper: Paper): boolean {
  const isOld = [...journal.places.values()].some((places) =>
    [...places.values()].some(({ version }) => version < ladder.length),
  );
  return isOld || journal.staleBytes > 256 * 1024 + paper.size() / 2;
}

/**
 * Writes the newest line of every record into a new file and removes the old one. Killed anywhere
 * in between, one of the two is whole. Returns the new file, open; the old one is closed. Where it
 * rejects, as for want of room, the old file is open still and nothing of the new one is left.
 */
export async function rewrite(journal: Journal, paper: Paper, drawer: Drawer): Promise<Paper> {
  const file = journal.file + 1;
  await drawer.remove(fileName(file)).catch(() => {});
  const next = await drawer.open(fileName(file));
  try {
    addAll(next, newestLines(journal, paper));
    next.flush();
    next.add(lineBytes(endMark));
    next.flush();
  } catch (error) {
    next.close();
    await drawer.remove(fileName(file)).catch(() => {});
    throw error;
  }
  paper.close();
  Object.assign(journal, blankJournal(), { file });
  readOn(journal, next);
  await removeAllBut(drawer, file);
  return next;
}

/** A file that stays open could never be opened again. */
async function closedIfItFails<T>(paper: Paper, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    paper.close();
    throw error;
  }
}

function* newestLines(journal: Journal, paper: Paper): Generator<Uint8Array> {
  for (const [table, places] of journal.places) {
    if (table === endMark.table) continue;
    for (const key of places.keys()) {
      const record = recordIn(journal, paper, table, key);
      yield lineBytes({ version: ladder.length, table, key, record });
    }
  }
}

function readOn(journal: Journal, paper: Paper): void {
  let rest = new Uint8Array(0);
  let restAt = journal.readTo;
  for (let at = journal.readTo; at < paper.size(); at += chunkBytes) {
    const bytes = joined(rest, paper.read(at, chunkBytes));
    let from = 0;
    for (let to = bytes.indexOf(10); to >= 0; to = bytes.indexOf(10, from)) {
      take(journal, bytes.subarray(from, to), restAt + from);
      from = to + 1;
    }
    rest = bytes.slice(from);
    restAt += from;
  }
  if (rest.length > 0) paper.cut(restAt);
  journal.readTo = restAt;
}

function take(journal: Journal, line: Uint8Array, at: number): void {
  const mark = markOf(line);
  if (!mark) {
    journal.damaged += 1;
    journal.staleBytes += line.length;
    return;
  }
  const places = journal.places.get(mark.table) ?? new Map<string, Place>();
  journal.places.set(mark.table, places);
  journal.staleBytes += places.get(mark.key)?.length ?? 0;
  if (mark.isGone) {
    places.delete(mark.key);
    journal.staleBytes += line.length;
  } else {
    places.set(mark.key, { ...mark, at, length: line.length });
  }
  journal.newest = Math.max(journal.newest, mark.version);
}

async function filesIn(drawer: Drawer): Promise<number[]> {
  const names = await drawer.names();
  return names
    .filter((name) => /^\d+\.log$/.test(name))
    .map((name) => Number.parseInt(name, 10))
    .sort((a, b) => a - b);
}

async function removeAllBut(drawer: Drawer, file: number): Promise<void> {
  const others = (await filesIn(drawer)).filter((other) => other !== file);
  for (const other of others) await drawer.remove(fileName(other)).catch(() => {});
}

function addAll(paper: Paper, lines: Iterable<Uint8Array>): void {
  let batch: Uint8Array[] = [];
  let length = 0;
  for (const line of lines) {
    batch.push(line);
    length += line.length;
    if (length < chunkBytes) continue;
    paper.add(joined(...batch));
    batch = [];
    length = 0;
  }
  if (length > 0) paper.add(joined(...batch));
}

function joined(...parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
