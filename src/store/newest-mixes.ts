import type { ColourwayId } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import type { Book } from '#store/book.ts';
import { headsOf } from '#store/heads.ts';

/** The newest version of every colour that has a mix. */
export async function newestMixes(book: Book): Promise<Map<ColourwayId, Mix>> {
  return newestOf(await headsOf(book, 'mixes'));
}

/** The newest version of every colour among these. */
export function newestOf(mixes: readonly Mix[]): Map<ColourwayId, Mix> {
  const newest = new Map<ColourwayId, Mix>();
  for (const mix of mixes.toSorted(newestFirst)) {
    if (mix.colourwayId && !newest.has(mix.colourwayId)) newest.set(mix.colourwayId, mix);
  }
  return newest;
}

/** The versions of a colour's mix, the newest first. */
export async function versionsOf(book: Book, colourwayId: ColourwayId): Promise<Mix[]> {
  const mixes = await headsOf(book, 'mixes');
  return mixes.filter((mix) => mix.colourwayId === colourwayId).sort(newestFirst);
}

/** The order of versions: the newest first; of two devices with one number, the one written later. */
export function newestFirst(a: Mix, b: Mix): number {
  return b.version - a.version || b.createdAt - a.createdAt || (a.id < b.id ? 1 : -1);
}
