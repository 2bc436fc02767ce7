import { type Carried, type Counts, carried } from '#store/copy/header.ts';
import { limits, parsed } from '#store/copy/limits.ts';
import { joined } from '#store/copy/lock.ts';
import { refusal } from '#store/copy/refusal.ts';

type Bytes = Uint8Array<ArrayBuffer>;
type Plain = Record<string, unknown>;

/** One record of a file: which table it is for, and where it stands. */
export interface Carrying {
  table: Carried;
  record: Plain;
  /** Its line in the unpacked text, from 1. */
  line: number;
}

const newLine = 0x0a;

/**
 * The contents as text, one record a line: `{"table":…,"record":…}`. The bytes of a picture follow
 * their own line as they are, `size` of them and a line end. The last line says `{"end":counts}`.
 */
export async function* linesFrom(
  records: AsyncIterable<{ table: Carried; record: unknown }>,
): AsyncGenerator<Bytes> {
  const encoder = new TextEncoder();
  const line = (value: unknown) => encoder.encode(`${JSON.stringify(value)}\n`);
  const counts = noCounts();
  for await (const { table, record } of records) {
    counts[table] += 1;
    if (table !== 'photo-bytes') yield line({ table, record });
    else {
      const { id, bytes } = record as { id: string; bytes: ArrayBuffer };
      yield line({ table, record: { id }, size: bytes.byteLength });
      yield joined(new Uint8Array(bytes), Uint8Array.of(newLine));
    }
  }
  yield line({ end: counts });
}

/** The records of a text. Refuses one that is not written so, or that holds other counts than it says. */
export async function* recordsIn(
  text: AsyncGenerator<Bytes>,
  promised: Readonly<Record<string, number>>,
): AsyncGenerator<Carrying> {
  const cutter = cutterOf(text);
  const counts = noCounts();
  for (let line = 1; ; line += 1) {
    const bytes = await cutter.line();
    if (!bytes) throw refusal('cut-short');
    const said = parsed(textOf(bytes)) as Plain | null;
    if (typeof said === 'object' && said !== null && 'end' in said) {
      checkCounts(counts, said.end as Plain);
      checkCounts(counts, promised);
      break;
    }
    const table = carried.find((one) => one === said?.table);
    const record = said?.record;
    if (!table || typeof record !== 'object' || record === null || Array.isArray(record)) {
      throw refusal('not-allowed', `Line ${line} is no record of a logbook.`);
    }
    counts[table] += 1;
    if (line > limits.records) throw refusal('too-big');
    // Not only at its end: a small file of endless lines would keep the phone at it for a minute.
    if (counts[table] > (promised[table] ?? 0)) {
      throw refusal('damaged', 'It holds more than it says it holds.');
    }
    if (table === 'photo-bytes') {
      const photo = await cutter.bytes(sizeOf(said?.size));
      yield { table, record: { ...record, bytes: photo.buffer }, line };
    } else yield { table, record: record as Plain, line };
  }
  if (await cutter.line()) throw refusal('not-allowed', 'Something follows the end.');
}

/** No record of any table. */
export function noCounts(): Counts {
  return Object.fromEntries(carried.map((table) => [table, 0])) as Counts;
}

function sizeOf(size: unknown): number {
  if (!Number.isInteger(size) || Number(size) < 0 || Number(size) > limits.photoBytes) {
    throw refusal('not-allowed', 'A picture is far too large.');
  }
  return Number(size);
}

function checkCounts(counts: Counts, said: Readonly<Record<string, unknown>>): void {
  const isSame = carried.every((table) => counts[table] === (said[table] ?? 0));
  if (!isSame) throw refusal('damaged', 'It does not hold what it says it holds.');
}

function textOf(bytes: Bytes): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw refusal('not-allowed', 'A line is no text.');
  }
}

/** Cuts a run of bytes into lines and lengths. */
function cutterOf(from: AsyncGenerator<Bytes>) {
  let held: Bytes = new Uint8Array(0);
  let at = 0;
  const more = async (): Promise<Bytes | null> => {
    const { value, done } = await from.next();
    return done ? null : value;
  };
  return {
    /** The bytes up to the next line end, without it; null: there are no more. */
    async line(): Promise<Bytes | null> {
      const parts: Bytes[] = [];
      let length = 0;
      while (true) {
        const end = held.indexOf(newLine, at);
        const part = held.subarray(at, end === -1 ? held.length : end);
        length += part.length;
        if (length > limits.lineBytes) throw refusal('too-big');
        parts.push(part);
        at = end === -1 ? held.length : end + 1;
        if (end !== -1) return parts.length === 1 ? part : joined(...parts);
        const next = await more();
        if (!next) {
          if (length > 0) throw refusal('cut-short');
          return null;
        }
        held = next;
        at = 0;
      }
    },
    /** Exactly so many bytes; the line end behind them is passed over. */
    async bytes(size: number): Promise<Bytes> {
      const whole = new Uint8Array(size + 1);
      let filled = 0;
      while (filled < whole.length) {
        if (at === held.length) {
          const next = await more();
          if (!next) throw refusal('cut-short');
          held = next;
          at = 0;
        }
        const part = held.subarray(at, at + whole.length - filled);
        whole.set(part, filled);
        filled += part.length;
        at += part.length;
      }
      if (whole[size] !== newLine) throw refusal('not-allowed', 'A picture has no end.');
      return whole.slice(0, size);
    },
  };
}
