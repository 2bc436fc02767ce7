import { expect, test } from 'vitest';
import { type Book, openBook } from '#store/book.ts';
import { broughtIn } from '#store/copy/bring.ts';
import { openedFile } from '#store/copy/file.ts';
import { takenCopy } from '#store/copy/take.ts';
import { addPhoto } from '#store/photos.ts';
import { aColourway, aMould, morning, pourEvening, seven } from '../../hands/evening.ts';
import { figure } from '../../hands/figure.ts';
import { jpegBytes } from '../../hands/full-shop.ts';
import { withHeap } from '../../hands/heap.ts';
import { repeatSession } from '../../hands/many-sessions.ts';

const sessions = 400;
const shotsEach = 50;
const photos = 200;
const photoBytes = 200_000;
/** The pictures together are 40 MB: held at once, in any way, they are far more than this. */
const mostHeapMb = 25;

/** Begins as a JPEG does, then chance, so that nothing can make it smaller. */
function chanceBytes(): ArrayBuffer {
  const bytes = new Uint8Array(photoBytes);
  for (let at = 0; at < bytes.length; at += 50_000) {
    crypto.getRandomValues(bytes.subarray(at, at + 50_000));
  }
  bytes.set(jpegBytes);
  return bytes.buffer;
}

/** SHA-256 over everything a copy carries, read a little at a time. */
async function hashOf(book: Book): Promise<string> {
  const hashes: string[] = [];
  const hashed = async (bytes: Uint8Array<ArrayBuffer>) => {
    const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
    hashes.push(hash.join());
  };
  for (const table of ['moulds', 'colourways', 'photos', 'sealed'] as const) {
    for (const key of await book.db.getAllKeys(table)) {
      const record = await book.db.get(table, key as never);
      await hashed(new TextEncoder().encode(JSON.stringify(record)));
    }
  }
  for (const key of await book.db.getAllKeys('photo-bytes')) {
    await hashed(
      new Uint8Array((await book.db.get('photo-bytes', key))?.bytes ?? new ArrayBuffer(0)),
    );
  }
  await hashed(new TextEncoder().encode(hashes.join('\n')));
  return hashes.at(-1) ?? '';
}

async function timed<T>(act: () => Promise<T>): Promise<T & { sec: number }> {
  const start = performance.now();
  return { ...(await act()), sec: (performance.now() - start) / 1_000 };
}

test(`${sessions * shotsEach} shots and ${photos} photos go out and come in a piece at a time`, async () => {
  const [book, clean] = await Promise.all(
    [1, 2].map(() => openBook(`size-${crypto.randomUUID()}`)),
  );
  if (!book || !clean) throw new Error('No logbook opened.');
  const mould = await aMould(book, 'Grub 50');
  const colourway = await aColourway(book, 'Peat', '#5b4029');
  const fills = Array.from({ length: shotsEach }, (_, at) => ({
    mould,
    gave: at % 7 === 3 ? 'ggsg' : 'gggg',
  }));
  const first = await pourEvening(book, { fills, colourway });
  await repeatSession(book, first, sessions - 1);
  const shape = { mediaType: 'image/jpeg', widthPx: 1_600, heightPx: 1_200 } as const;
  const of = { shows: 'bait', colourwayId: colourway.id } as const;
  for (let number = 0; number < photos; number += 1) {
    await addPhoto(book, of, { ...shape, bytes: chanceBytes() }, seven + number);
  }
  const wish = { withPhotos: true, words: 'lamp river stone apple tiny frog', version: '1' };
  const out = await timed(() => withHeap(() => takenCopy(book, wish, morning)));
  const { file, counts, faults } = out.made;
  const about = { name: 'shop.warmshot', at: morning, version: '1' };
  const opened = await openedFile(file, wish.words);
  const back = await timed(() => withHeap(() => broughtIn(clean, opened, about)));
  const isSame = (await hashOf(clean)) === (await hashOf(book));
  const isBounded = Math.max(out.risenMb, back.risenMb) <= mostHeapMb;
  figure({
    drill: 'A copy of a full-sized shop with its photos',
    required: `${sessions * shotsEach} shots, ${photos} photos, locked: the same on the other phone, heap +${mostHeapMb} MB at most`,
    reached: `${isSame ? 'the same' : 'not the same'}, file ${(file.size / 1_000_000).toFixed(0)} MB, out +${out.risenMb.toFixed(1)} MB in ${out.sec.toFixed(1)} s, in +${back.risenMb.toFixed(1)} MB in ${back.sec.toFixed(1)} s`,
    isMet: isSame && isBounded,
  });
  expect(counts).toMatchObject({ sealed: sessions, photos, 'photo-bytes': photos });
  expect(faults).toEqual([]);
  expect(file.size).toBeGreaterThan(photos * photoBytes);
  expect(isSame).toBe(true);
  expect(Math.max(out.risenMb, back.risenMb)).toBeLessThanOrEqual(mostHeapMb);
}, 300_000);
