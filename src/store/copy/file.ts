import { closedChunks, openedChunks } from '#store/copy/chunks.ts';
import {
  type Carried,
  type Counts,
  type Header,
  headerBytes,
  readHeader,
} from '#store/copy/header.ts';
import { limits } from '#store/copy/limits.ts';
import { type Carrying, linesFrom, recordsIn } from '#store/copy/lines.ts';
import { type Guard, hexOf, newLock, plainGuard, unlocked } from '#store/copy/lock.ts';
import { packedBytes, unpackedBytes } from '#store/copy/packing.ts';
import { mayGoOn, refusal } from '#store/copy/refusal.ts';
import { ladder } from '#store/ladder.ts';

/** What is to be written. */
export interface Source {
  counts: Counts;
  records: AsyncIterable<{ table: Carried; record: unknown }>;
}

/** How a long piece of work is followed and stopped. */
export interface Watch {
  /** Hears how much is done, 0 to 1. */
  onShare?: (share: number) => void;
  signal?: AbortSignal;
}

/** Writes the records into one file of ours; `words` locks it, null leaves it open. */
export async function writtenFile(
  source: Source,
  from: { at: number; app: string; device: string },
  words: string | null,
  { onShare, signal }: Watch = {},
): Promise<Blob> {
  const { lock, guard } = words === null ? { lock: null, guard: plainGuard } : await newLock(words);
  const header = headerBytes({
    copy: hexOf(crypto.getRandomValues(new Uint8Array(16))),
    version: ladder.length,
    ...from,
    counts: source.counts,
    lock,
  } as Header);
  const total = Object.values(source.counts).reduce((sum, count) => sum + count, 0);
  async function* counted() {
    let done = 0;
    for await (const record of source.records) {
      mayGoOn(signal);
      yield record;
      done += 1;
      if (done % 50 === 0) onShare?.(done / total);
    }
  }
  const pieces: Blob[] = [];
  for await (const piece of closedChunks(packedBytes(linesFrom(counted())), guard, header)) {
    pieces.push(piece);
  }
  onShare?.(1);
  return new Blob([header, ...pieces], { type: 'application/octet-stream' });
}

/** A file that was looked at from outside, and the way into it. */
export interface OpenFile {
  header: Header;
  /** Its records, read anew at each call: checked against damage, not yet against the schemas. */
  records: (watch?: Watch) => AsyncGenerator<Carrying>;
}

/** Opens a file. Throws `needs-words` for a locked one without `words`, and all that is wrong with it. */
export async function openedFile(file: Blob, words: string | null): Promise<OpenFile> {
  const { header, bytes } = await readHeader(file);
  const guard = await guardOf(header, words);
  return {
    header,
    records: ({ onShare, signal } = {}) => {
      const onRead = (done: number) => {
        mayGoOn(signal);
        onShare?.(done / file.size);
      };
      const isWithPhotos = (header.counts['photo-bytes'] ?? 0) > 0;
      const most = isWithPhotos ? limits.outBytesWithPhotos : limits.outBytes;
      const packed = openedChunks(file, bytes, guard, onRead);
      return recordsIn(unpackedBytes(packed, most), header.counts);
    },
  };
}

/** Records that lie in memory, to be looked at and brought in like a file. */
export function heldRecords(
  held: readonly { table: Carried; record: unknown }[],
  from: { at: number; book: { device: string } },
): OpenFile {
  const header = { copy: '', at: from.at, version: ladder.length, app: '', counts: {}, lock: null };
  async function* records({ signal }: Watch = {}): AsyncGenerator<Carrying> {
    for (const [index, { table, record }] of held.entries()) {
      mayGoOn(signal);
      yield { table, record: record as Carrying['record'], line: index + 1 };
    }
  }
  return { header: { ...header, device: from.book.device } as Header, records };
}

async function guardOf({ lock }: Header, words: string | null): Promise<Guard> {
  if (!lock) return plainGuard;
  if (words === null) throw refusal('needs-words');
  return await unlocked(lock, words);
}
