import * as z from 'zod/mini';
import { crc32 } from '#calc/crc32.ts';
import { DeviceId, Instant } from '#model/schemas.ts';
import { limits, parsed } from '#store/copy/limits.ts';
import { joined } from '#store/copy/lock.ts';
import { refusal } from '#store/copy/refusal.ts';
import { ladder } from '#store/ladder.ts';

/** The number of the outer shape: magic, header, chunks. */
const format = 1;
const magic = new TextEncoder().encode('WARMSHOT');
/** Magic, format and length of the header. */
const leadBytes = magic.length + 5;
const sumBytes = 4;

/** Every table that a file carries, in the order of the file. */
export const carried = [
  'settings',
  'moulds',
  'injectors',
  'colourways',
  'materials',
  'mixes',
  'photos',
  'remarks',
  'ideas',
  'changes',
  'movements',
  'sealed',
  'entries',
  'photo-bytes',
] as const;
export type Carried = (typeof carried)[number];
export type Counts = Record<Carried, number>;

const hex = (bytes: number) => z.string().check(z.regex(new RegExp(`^[0-9a-f]{${bytes * 2}}$`)));
const count = z.int().check(z.gte(0), z.lte(limits.records));

/** What stands at the head of a file, readable without a passphrase. */
export const Header = z.looseObject({
  /** Tells one file from another. */
  copy: hex(16),
  at: Instant,
  /** The number of rungs on the ladder when it was written. */
  version: z.int().check(z.gte(1), z.lte(10_000)),
  /** The app that wrote it. */
  app: z.string().check(z.maxLength(40)),
  device: DeviceId,
  counts: z.record(z.string(), count),
  /** Null: no passphrase. */
  lock: z.nullable(
    z.looseObject({
      by: z.literal('PBKDF2-SHA256'),
      // Fewer are no lock, more would hang the phone.
      rounds: z.int().check(z.gte(limits.leastRounds), z.lte(limits.mostRounds)),
      salt: hex(16),
      check: hex(16),
      cipher: z.literal('AES-256-GCM'),
      nonce: hex(7),
    }),
  ),
});
export type Header = z.infer<typeof Header>;

/** The head of a file in bytes: magic, format, length, JSON, CRC-32 of all before. */
export function headerBytes(header: Header): Uint8Array<ArrayBuffer> {
  const text = new TextEncoder().encode(JSON.stringify(header));
  const lead = new Uint8Array(leadBytes);
  lead.set(magic);
  lead[magic.length] = format;
  new DataView(lead.buffer).setUint32(magic.length + 1, text.length);
  const before = joined(lead, text);
  const sum = new Uint8Array(sumBytes);
  new DataView(sum.buffer).setUint32(0, crc32(before));
  return joined(before, sum);
}

/** The head of a file with its bytes. Refuses what is not ours, damaged, cut short or newer. */
export async function readHeader(
  file: Blob,
): Promise<{ header: Header; bytes: Uint8Array<ArrayBuffer> }> {
  const lead = await bytesAt(file, 0, leadBytes);
  if (magic.some((byte, index) => lead[index] !== byte)) throw refusal('not-a-copy');
  if (lead.length < leadBytes) throw refusal('cut-short');
  if ((lead[magic.length] ?? 0) > format) throw refusal('newer');
  const length = new DataView(lead.buffer).getUint32(magic.length + 1);
  if (length > limits.headerBytes) throw refusal('damaged');
  const whole = leadBytes + length + sumBytes;
  const bytes = await bytesAt(file, 0, whole);
  if (bytes.length < whole) throw refusal('cut-short');
  const sum = new DataView(bytes.buffer).getUint32(whole - sumBytes);
  if (crc32(bytes.subarray(0, whole - sumBytes)) !== sum) throw refusal('damaged');
  const header = headerFrom(bytes.subarray(leadBytes, whole - sumBytes));
  const isWithPhotos = (header.counts['photo-bytes'] ?? 0) > 0;
  if (file.size > (isWithPhotos ? limits.fileBytesWithPhotos : limits.fileBytes)) {
    throw refusal('too-big');
  }
  return { header, bytes };
}

function headerFrom(bytes: Uint8Array): Header {
  const said = parsed(new TextDecoder().decode(bytes));
  const version = (said as { version?: unknown } | null)?.version;
  // Asked first: the rest of a newer header may look otherwise.
  if (typeof version === 'number' && version > ladder.length) throw refusal('newer');
  const read = z.safeParse(Header, said);
  if (!read.success) throw refusal('not-allowed', 'The head of the file is not one of ours.');
  return read.data;
}

/** Bytes of a file, fewer where it ends before. */
export async function bytesAt(
  file: Blob,
  from: number,
  length: number,
): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await file.slice(from, from + length).arrayBuffer());
}
