import { wallMs } from '#calc/stamp.ts';
import type { Entry } from '#model/entry.ts';
import type { PhotoBytes } from '#model/photo.ts';
import type { Stamp } from '#model/schemas.ts';
import type { SealedSession } from '#model/session.ts';
import type { OpenFile, Watch } from '#store/copy/file.ts';
import type { Carried } from '#store/copy/header.ts';
import { openDoor } from '#store/door.ts';
import { climb } from '#store/ladder.ts';

/** A record that a table would not hold: it is left out, and this says why. */
export interface Fault {
  table: Carried;
  /** Its line in the unpacked file. */
  line: number;
  reason: string;
}

/** A record in today's shape that has passed the door of its table. */
export interface Fitting {
  table: Carried;
  record: unknown;
  line: number;
}

/** As long as an `Instant` may be: a stamp from beyond would pull every later stamp with it. */
const latestMs = 4_102_444_800_000;

/** The records of a file as they may be stored, brought up the ladder; the others with what is wrong. */
export async function* fitting(open: OpenFile, watch: Watch): AsyncGenerator<Fitting | Fault> {
  const { checkedBy } = await openDoor();
  for await (const { table, record: carried, line } of open.records(watch)) {
    try {
      const record = checkedBy(table, climb(table, carried, open.header.version));
      const reason = strangeness(table, record);
      yield reason ? { table, line, reason } : { table, record, line };
    } catch (error) {
      yield { table, line, reason: reasonOf(error) };
    }
  }
}

/** What a schema cannot see: parts that do not belong together. Empty: all is well. */
function strangeness(table: Carried, record: unknown): string {
  if (table === 'photo-bytes') {
    return isPicture(new Uint8Array((record as PhotoBytes).bytes)) ? '' : 'This is no picture.';
  }
  if (stampsOf(table, record).some((stamp) => wallMs(stamp) > latestMs)) {
    return 'It was written after the year 2100.';
  }
  if (table !== 'sealed') return '';
  const { id, entries } = record as SealedSession;
  const isOwn = entries.length > 0 && entries.every(({ sessionId }) => sessionId === id);
  return isOwn ? '' : 'It holds entries of another session, or none.';
}

/** Every stamp that a record carries. */
export function stampsOf(table: Carried, record: unknown): Stamp[] {
  if (table === 'photo-bytes') return [];
  if (table === 'sealed') return (record as SealedSession).entries.map(({ stamp }) => stamp);
  if (table === 'entries' || table === 'movements') return [(record as Entry).stamp];
  return Object.values((record as { stamps: Record<string, Stamp> }).stamps);
}

/** JPEG, PNG or WebP by its first bytes (ISO 10918-1, ISO 15948, RFC 9649). */
function isPicture(bytes: Uint8Array): boolean {
  const begins = (at: number, ...wanted: number[]) =>
    wanted.every((byte, index) => bytes[at + index] === byte);
  return (
    begins(0, 0xff, 0xd8, 0xff) ||
    begins(0, 0x89, 0x50, 0x4e, 0x47) ||
    (begins(0, 0x52, 0x49, 0x46, 0x46) && begins(8, 0x57, 0x45, 0x42, 0x50))
  );
}

/** The first thing that is wrong, in the schema's own words where it has some. */
export function reasonOf(error: unknown): string {
  const [issue] = (error as { issues?: { path: PropertyKey[]; message: string }[] }).issues ?? [];
  if (!issue) return 'It could not be read.';
  const field = issue.path.map(String).join('.').slice(0, 80);
  const words = /[.]$/.test(issue.message) ? issue.message : 'It does not fit.';
  return field ? `${field}: ${words}` : words;
}
