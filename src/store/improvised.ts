import type { MixBody } from '#calc/mix.ts';
import type { Mix, MixId } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, pennedMeta } from '#store/book.ts';
import { type FactsOf, newHead } from '#store/heads.ts';
import { announce } from '#store/notice.ts';
import { whole } from '#store/whole.ts';

/** Keeps a mix that was made up at the table, under the id that its pot was logged with. */
export async function keepImprovised(
  book: Book,
  mixId: MixId,
  body: MixBody,
  at: Instant,
): Promise<Mix> {
  const { baseMl, sides } = body;
  return await addMix(
    book,
    { baseMl, sides, nextTime: '', colourwayId: null, version: 1 },
    at,
    mixId,
  );
}

/** Adds one version of a mix; `id` where its pot was logged before it. */
export async function addMix(
  book: Book,
  facts: FactsOf<'mixes'>,
  at: Instant,
  id?: MixId,
): Promise<Mix> {
  const mix = await newHead(book, 'mixes', id ? { facts, at, id } : { facts, at });
  const tx = book.db.transaction(['mixes', 'meta'], 'readwrite', { durability: 'strict' });
  await whole(tx, [
    () => tx.objectStore('mixes').put(mix),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce('mixes');
  return mix;
}
