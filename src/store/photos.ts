import { asHeirs, heirsOf } from '#calc/heirs.ts';
import type { SessionId, ShotId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MaterialId } from '#model/material.ts';
import type { MixId } from '#model/mix.ts';
import type { MouldId } from '#model/mould.ts';
import type { Photo, PhotoId } from '#model/photo.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, pennedMeta } from '#store/book.ts';
import { checked } from '#store/door.ts';
import { type FactsOf, headOf, headsOf, newHead } from '#store/heads.ts';
import { announce } from '#store/notice.ts';
import { whole } from '#store/whole.ts';

/** A picture that was made small, as the device gives it. */
export interface SmallPicture {
  bytes: ArrayBuffer;
  mediaType: Photo['mediaType'];
  widthPx: number;
  heightPx: number;
}

/** Where a bait came from, as far as the log tells. */
export interface PouredBait {
  sessionId: SessionId;
  shotId: ShotId | null;
  mouldId: MouldId | null;
  /** The version of the mix that was in the pot; null: none was written down. */
  mixId: MixId | null;
}

/** What the photos of baits are read from. */
export const photoTables = ['photos', 'mixes'] as const;

/** What a new photo is of. */
export type PhotoOf =
  | {
      shows: 'bait';
      colourwayId: ColourwayId | null;
      poured?: PouredBait;
      /** The mix, where no log tells it; absent: the newest of the colour. */
      mixId?: MixId;
    }
  | { shows: 'card'; materialId: MaterialId };

/**
 * Stores a picture and what is known of it, both or neither. A photo of a bait belongs to the mix that
 * the log tells; where it comes from no log, to the newest of its colour. Rejects when the device has no room; nothing else is touched then.
 */
export async function addPhoto(
  book: Book,
  of: PhotoOf,
  picture: SmallPicture,
  at: Instant,
): Promise<Photo> {
  const { bytes, ...shape } = picture;
  const facts: FactsOf<'photos'> = {
    ...shape,
    shows: of.shows,
    colourwayId: of.shows === 'bait' ? of.colourwayId : null,
    mixId: of.shows === 'bait' ? await mixIdOf(book, of) : null,
    materialId: of.shows === 'card' ? of.materialId : null,
    sessionId: null,
    ...(of.shows === 'bait' && of.poured ? pouredFacts(of.poured) : {}),
    takenAt: at,
    isDrawn: false,
    rating: null,
    thicknessMm: null,
    readings: [],
  };
  const head = await newHead(book, 'photos', { facts, at });
  const held = await checked('photo-bytes', { id: head.id, bytes });
  const stores = ['photos', 'photo-bytes', 'meta'] as const;
  const tx = book.db.transaction(stores, 'readwrite', { durability: 'strict' });
  await whole(tx, [
    () => tx.objectStore('photo-bytes').put(held),
    () => tx.objectStore('photos').put(head),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce('photos', 'photo-bytes');
  return head;
}

/** The photos of a colour's baits, newest first. */
export async function photosOfColourway(book: Book, id: ColourwayId): Promise<Photo[]> {
  const photos = await baitPhotos(book);
  return photos.filter(({ colourwayId }) => colourwayId === id);
}

/** The photos of one version of a mix, newest first. */
export async function photosOfMix(book: Book, id: MixId): Promise<Photo[]> {
  const photos = await baitPhotos(book);
  return photos.filter(({ mixId }) => mixId === id);
}

/** The photos of an evening's baits, in the order they were taken. */
export async function photosOfSession(book: Book, id: SessionId): Promise<Photo[]> {
  const photos = await baitPhotos(book);
  return photos.filter(({ sessionId }) => sessionId === id).reverse();
}

/**
 * Every photo of a bait, newest first. One of a mix that has a name by now, stored where nobody knew
 * that yet, is of its colour.
 */
export async function baitPhotos(book: Book): Promise<Photo[]> {
  const photos = (await headsOf(book, 'photos')).filter(({ shows }) => shows === 'bait');
  return (await ofHeirs(book, photos)).sort(byNewest);
}

/** One photo, as `baitPhotos` gives it; undefined: it is not in the logbook. */
export async function photoOf(book: Book, id: PhotoId): Promise<Photo | undefined> {
  const photo = await headOf(book, 'photos', id);
  return photo && (await ofHeirs(book, [photo]))[0];
}

async function ofHeirs(book: Book, photos: Photo[]): Promise<Photo[]> {
  if (photos.every(isOfColour)) return photos;
  const heirs = heirsOf(await book.db.getAll('mixes'));
  return photos.map((photo) => asHeirs(photo, heirs));
}

function isOfColour({ colourwayId, mixId }: Photo): boolean {
  return colourwayId !== null || mixId === null;
}

/** The newest photo of each colour that has one; `taken`: of real baits only, none that was drawn. */
export async function newestPhotos(
  book: Book,
  which: 'all' | 'taken' = 'all',
): Promise<Map<string, Photo>> {
  const newest = new Map<string, Photo>();
  for (const photo of await baitPhotos(book)) {
    const { colourwayId, isDrawn } = photo;
    if (which === 'taken' && isDrawn) continue;
    if (colourwayId && !newest.has(colourwayId)) newest.set(colourwayId, photo);
  }
  return newest;
}

/** The card photos of a material, newest first. */
export async function cardPhotosOf(book: Book, id: MaterialId): Promise<Photo[]> {
  const photos = await headsOf(book, 'photos');
  return photos.filter(({ materialId }) => materialId === id).sort(byNewest);
}

/** The bytes of a picture and their kind; null: they are not in this logbook. */
export async function pictureOf(
  book: Book,
  id: PhotoId,
): Promise<Pick<SmallPicture, 'bytes' | 'mediaType'> | null> {
  const tx = book.db.transaction(['photos', 'photo-bytes']);
  const [head, held] = await Promise.all([
    tx.objectStore('photos').get(id),
    tx.objectStore('photo-bytes').get(id),
  ]);
  return head && held ? { bytes: held.bytes, mediaType: head.mediaType } : null;
}

function byNewest(a: Photo, b: Photo): number {
  return b.takenAt - a.takenAt || (a.id < b.id ? 1 : -1);
}

function pouredFacts({ sessionId, shotId, mouldId }: PouredBait) {
  return { sessionId, shotId, mouldId };
}

async function mixIdOf(
  book: Book,
  { colourwayId, poured, mixId }: Extract<PhotoOf, { shows: 'bait' }>,
): Promise<MixId | null> {
  if (poured) return poured.mixId;
  if (mixId) return mixId;
  return colourwayId && (await newestMixId(book, colourwayId));
}

async function newestMixId(book: Book, id: ColourwayId): Promise<MixId | null> {
  const mixes = await headsOf(book, 'mixes');
  const own = mixes.filter(({ colourwayId }) => colourwayId === id);
  return own.sort((a, b) => b.version - a.version)[0]?.id ?? null;
}
