import type { Material } from '#model/material.ts';
import type { Photo, PhotoReading } from '#model/photo.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, pennedMeta } from '#store/book.ts';
import { changedHead, headsOf, overTheirs } from '#store/heads.ts';
import { announce } from '#store/notice.ts';
import { whole } from '#store/whole.ts';

/** Optics of the plastisol without colour, when the shop has read just one; null: taken as clear. */
export async function bareBaseOf(book: Book): Promise<Material['optics']> {
  const materials = await headsOf(book, 'materials');
  const read = materials.flatMap(({ kind, optics }) =>
    kind === 'plastisol' && optics ? [optics] : [],
  );
  return read.length === 1 ? (read[0] ?? null) : null;
}

/** What was read off a card photo. */
export interface CardRead {
  material: Material;
  optics: NonNullable<Material['optics']>;
  thicknessMm: number;
  reading: PhotoReading;
}

/** Keeps what a card photo taught of its material, and what was read on the photo: both or neither. */
export async function keepCard(
  book: Book,
  photo: Photo,
  { material, optics, thicknessMm, reading }: CardRead,
  at: Instant,
): Promise<void> {
  const read = { readings: [reading], thicknessMm };
  const nextPhoto = await changedHead(book, 'photos', photo, read, at);
  const nextMaterial = await changedHead(book, 'materials', material, { optics }, at);
  const stores = ['photos', 'materials', 'meta'] as const;
  const tx = book.db.transaction(stores, 'readwrite', { durability: 'strict' });
  const photos = await overTheirs(tx.objectStore('photos'), [nextPhoto]);
  const materials = await overTheirs(tx.objectStore('materials'), [nextMaterial]);
  await whole(tx, [
    ...photos.map((one) => () => tx.objectStore('photos').put(one)),
    ...materials.map((one) => () => tx.objectStore('materials').put(one)),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce('photos', 'materials');
}
