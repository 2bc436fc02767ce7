import { bytesAt } from '#store/copy/header.ts';
import { type Guard, joined, type Place } from '#store/copy/lock.ts';
import { refusal } from '#store/copy/refusal.ts';

/** Bytes of contents in one chunk, before it is closed. */
const chunkBytes = 1_048_576;
/** More than a closed chunk can need. */
const mostClosed = chunkBytes + 64;
const lastBit = 0x80000000;

/**
 * The chunks of a file from its packed contents: 4 bytes of length, the top bit set on the last
 * one, then the closed chunk. Each becomes a piece of its own, which the browser may lay on disk.
 */
export async function* closedChunks(
  packed: AsyncIterable<Uint8Array>,
  guard: Guard,
  header: Uint8Array<ArrayBuffer>,
): AsyncGenerator<Blob> {
  const headerHash = await hashOf(header);
  let index = 0;
  const piece = async (plain: Uint8Array<ArrayBuffer>, isLast: boolean) => {
    const closed = await guard.close(plain, { index, isLast, headerHash });
    const length = new Uint8Array(4);
    new DataView(length.buffer).setUint32(0, closed.length + (isLast ? lastBit : 0));
    index += 1;
    return new Blob([length, closed]);
  };
  let held = new Uint8Array(chunkBytes);
  let filled = 0;
  for await (const part of packed) {
    let taken = 0;
    while (taken < part.length) {
      if (filled === chunkBytes) {
        yield await piece(held, false);
        held = new Uint8Array(chunkBytes);
        filled = 0;
      }
      const some = part.subarray(taken, taken + chunkBytes - filled);
      held.set(some, filled);
      filled += some.length;
      taken += some.length;
    }
  }
  yield await piece(held.slice(0, filled), true);
}

/**
 * The packed contents of a file, chunk by chunk, each opened and checked before it is handed on.
 * Throws `damaged` or `cut-short`; `onRead` hears how many bytes of the file are done.
 */
export async function* openedChunks(
  file: Blob,
  header: Uint8Array<ArrayBuffer>,
  guard: Guard,
  onRead: (bytes: number) => void,
): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  const headerHash = await hashOf(header);
  let at = header.length;
  for (let index = 0; ; index += 1) {
    const lead = await bytesAt(file, at, 4);
    if (lead.length < 4) throw refusal('cut-short');
    const said = new DataView(lead.buffer).getUint32(0);
    const length = said % lastBit;
    const place: Place = { index, isLast: said >= lastBit, headerHash };
    if (length > mostClosed) throw refusal('damaged');
    const closed = await bytesAt(file, at + 4, length);
    if (closed.length < length) throw refusal('cut-short');
    const plain = await guard.open(closed, place);
    at += 4 + length;
    onRead(at);
    yield plain;
    if (place.isLast) break;
  }
  if (at !== file.size) throw refusal('damaged');
}

async function hashOf(header: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  return joined(new Uint8Array(await crypto.subtle.digest('SHA-256', header)));
}
