import { crc32 } from '#calc/crc32.ts';

/** One line of the second copy: a record as it was written, with the shape it was written in. */
export interface Line {
  /** The number of rungs on the ladder when it was written. */
  version: number;
  table: string;
  key: string;
  /** Null: the record was taken out of its table by hand. */
  record: unknown;
}

/** Where a line lies in its file, without its record. */
export interface LineMark {
  version: number;
  table: string;
  key: string;
  /** Of everything after it on the line: two lines with one sum say the same. */
  sum: number;
  isGone: boolean;
}

const writer = new TextEncoder();
const reader = new TextDecoder('utf-8', { fatal: true });
const newline = 10;
const space = 32;
const sumLength = 8;

/**
 * A line as bytes: checksum, version, table, key, record as JSON. JSON holds no line break, so a
 * line ends where the next one begins whatever a name contains.
 */
export function lineBytes({ version, table, key, record }: Line): Uint8Array {
  const said = writer.encode(`${version} ${table} ${key} ${JSON.stringify(record)}`);
  const bytes = new Uint8Array(sumLength + 1 + said.length + 1);
  bytes.set(writer.encode(crc32(said).toString(16).padStart(sumLength, '0')));
  bytes[sumLength] = space;
  bytes.set(said, sumLength + 1);
  bytes[bytes.length - 1] = newline;
  return bytes;
}

/** The checksum that a line of this record has. */
export function lineSum({ version, table, key, record }: Line): number {
  return crc32(writer.encode(`${version} ${table} ${key} ${JSON.stringify(record)}`));
}

/** What a line without its line break is about; null when it is damaged. */
export function markOf(bytes: Uint8Array): LineMark | null {
  if (bytes.length < sumLength + 6 || bytes[sumLength] !== space) return null;
  const said = bytes.subarray(sumLength + 1);
  const sum = crc32(said);
  if (textOf(bytes.subarray(0, sumLength)) !== sum.toString(16).padStart(sumLength, '0'))
    return null;
  const [version, table, key] = wordsOf(said, 3);
  if (!version || !table || !key) return null;
  const isGone = said.length < 200 && textOf(said) === `${version} ${table} ${key} null`;
  return { version: Number(version), table, key, sum, isGone };
}

/** The record of a line without its line break; throws for one that `markOf` would not take. */
export function recordOf(bytes: Uint8Array): unknown {
  let at = sumLength + 1;
  for (let word = 0; word < 3; word += 1) at = bytes.indexOf(space, at) + 1;
  return JSON.parse(textOf(bytes.subarray(at)));
}

function wordsOf(bytes: Uint8Array, count: number): string[] {
  const words: string[] = [];
  let from = 0;
  while (words.length < count) {
    const to = bytes.indexOf(space, from);
    if (to < 0) return [];
    words.push(textOf(bytes.subarray(from, to)));
    from = to + 1;
  }
  return words;
}

function textOf(bytes: Uint8Array): string {
  try {
    return reader.decode(bytes);
  } catch {
    return '';
  }
}
