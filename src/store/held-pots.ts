import { standingOf } from '#calc/log.ts';
import { type HeldPot, heldIn } from '#calc/poured-sides.ts';
import type { SessionId } from '#model/entry.ts';
import type { Photo, PhotoId } from '#model/photo.ts';
import type { Book } from '#store/book.ts';
import type { PouredMeta } from '#store/db.ts';
import { rangeOf } from '#store/running.ts';

type Kept = PouredMeta['lines'][number];
type OfEvening = Photo & { sessionId: SessionId };

/**
 * The pots that photos' baits were poured from, by photo; none for a photo of no evening, null where
 * its evening knows no such shot. An ended evening is read once: what it told is kept beside the log
 * with the checksum of its lines, and holds for as long as its digest has the same. One that runs is
 * read each time.
 */
export async function heldPotsOf(
  book: Book,
  photos: readonly Photo[],
): Promise<Map<PhotoId, readonly HeldPot[] | null>> {
  const ofEvenings = photos.filter((photo): photo is OfEvening => photo.sessionId !== null);
  const known = await knownOf(book, ofEvenings);
  const missing = ofEvenings.filter(({ id }) => !known.has(id));
  const found = new Map([...known].map(([id, { pots }]) => [id, pots]));
  if (missing.length === 0) return found;
  const kept = [...known.values()];
  for (const [sessionId, own] of Map.groupBy(missing, (photo) => photo.sessionId)) {
    const { entries, startedAt, sum } = await eveningOf(book, sessionId);
    const heldBy = heldIn(standingOf(entries));
    for (const photo of own) {
      const pots = heldBy(photo);
      const { id: photoId, shotId = null } = photo;
      found.set(photoId, pots);
      if (sum !== undefined) kept.push({ photoId, shotId, sessionId, startedAt, sum, pots });
    }
  }
  if (kept.length > known.size) await keep(book, kept);
  return found;
}

/** What was kept and still holds. */
async function knownOf(book: Book, photos: readonly OfEvening[]): Promise<Map<PhotoId, Kept>> {
  const tx = book.db.transaction(['meta', 'columns']);
  const meta = await tx.objectStore('meta').get('poured');
  const lines = meta?.name === 'poured' ? meta.lines : [];
  const byPhoto = new Map(lines.map((line) => [line.photoId, line]));
  const kept = photos.flatMap(({ id, sessionId, shotId = null }) => {
    const line = byPhoto.get(id);
    return line?.sessionId === sessionId && line.shotId === shotId ? [line] : [];
  });
  const sums = new Map<SessionId, number | undefined>();
  const digests = new Map(kept.map(({ sessionId, startedAt }) => [sessionId, startedAt]));
  await Promise.all(
    [...digests].map(async ([sessionId, startedAt]) => {
      const digest = await tx.objectStore('columns').get([startedAt, sessionId]);
      sums.set(sessionId, digest?.sum);
    }),
  );
  return new Map(
    kept.flatMap((line) => (sums.get(line.sessionId) === line.sum ? [[line.photoId, line]] : [])),
  );
}

/** An evening with the checksum of its lines, from one moment of the database; one that runs has none. */
async function eveningOf(book: Book, sessionId: SessionId) {
  const tx = book.db.transaction(['entries', 'sealed', 'columns']);
  const running = await tx.objectStore('entries').getAll(rangeOf(sessionId));
  if (running.length > 0) return { entries: running, startedAt: 0, sum: undefined };
  const sealed = await tx.objectStore('sealed').get(sessionId);
  const { entries = [], startedAt = 0 } = sealed ?? {};
  const digest = await tx.objectStore('columns').get([startedAt, sessionId]);
  return { entries, startedAt, sum: digest?.sum };
}

/** It can be worked out again: a device without room for it loses nothing. */
async function keep(book: Book, lines: readonly Kept[]): Promise<void> {
  await book.db.put('meta', { name: 'poured', lines }).catch(() => {});
}
