import { dayOf } from '#calc/days.ts';
import type { Colourway } from '#model/gear.ts';
import type { Instant } from '#model/schemas.ts';
import { dateWords } from '#screens/words.ts';
import type { Book } from '#store/book.ts';
import { deletedHeadsOf, type Heads, setDeleted } from '#store/heads.ts';

/** So long a thing without a list of its own can be brought back here; a mould, a colour, a material or an injector for good. */
const recentMs = 30 * 86_400_000;

/** One thing that was taken off, with the way back. */
export interface Taken {
  id: string;
  name: string;
  says: string;
  bringBack: (at: Instant) => Promise<void>;
}

/** Everything that can be brought back: first what has a list of its own, then the rest, the last taken off first. */
export async function takenOff(book: Book, when: { now: Instant; zone: string }): Promise<Taken[]> {
  return [...(await withLists(book)), ...(await lately(book, when))];
}

/** What stands on a list of the shop. */
async function withLists(book: Book): Promise<Taken[]> {
  const past = 'Its past stays in the log.';
  return [
    ...(await takenOf(book, 'moulds', ({ name }) => ({ name, says: `A mould. ${past}` }))),
    ...(await takenOf(book, 'colourways', ({ name }) => ({ name, says: `A colour. ${past}` }))),
    ...(await takenOf(book, 'materials', ({ name }) => ({ name, says: `A material. ${past}` }))),
    ...(await takenOf(book, 'injectors', ({ name }) => ({ name, says: `An injector. ${past}` }))),
  ];
}

/** What has no list where it could be looked for, the last taken off first. */
async function lately(book: Book, { now, zone }: { now: Instant; zone: string }) {
  const dateOf = (at: Instant) => dateWords(dayOf(at, zone), dayOf(now, zone));
  const names = new Map(
    ((await book.db.getAll('colourways')) as Colourway[]).map(({ id, name }) => [id, name]),
  );
  const since = now - recentMs;
  const all = [
    ...(await takenOf(
      book,
      'photos',
      ({ colourwayId, takenAt, materialId }) => {
        const whose = colourwayId && names.get(colourwayId);
        const of = whose || (materialId ? 'A card' : 'A bait without a name');
        return { name: `${of}, ${dateOf(takenAt)}`, says: 'A photo.' };
      },
      since,
    )),
    ...(await takenOf(
      book,
      'mixes',
      ({ colourwayId, createdAt }) => ({
        name: (colourwayId && names.get(colourwayId)) || `Mixed ${dateOf(createdAt)}`,
        says: colourwayId ? 'A mix.' : 'A mix without a name.',
      }),
      since,
    )),
    ...(await takenOf(
      book,
      'remarks',
      ({ text }) => ({ name: shortened(text), says: 'A note.' }),
      since,
    )),
    ...(await takenOf(
      book,
      'ideas',
      ({ text }) => ({ name: shortened(text), says: 'An idea.' }),
      since,
    )),
  ];
  return all
    .sort((a, b) => b.deletedAt - a.deletedAt)
    .map((one) => ({ ...one, says: `${one.says} Taken off ${dateOf(one.deletedAt)}.` }));
}

function shortened(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}

async function takenOf<K extends keyof Heads>(
  book: Book,
  kind: K,
  words: (head: Heads[K]) => { name: string; says: string },
  since = 0,
) {
  const heads = await deletedHeadsOf(book, kind);
  return heads
    .filter(({ deletedAt }) => (deletedAt ?? 0) >= since)
    .map((head) => ({
      ...words(head),
      id: head.id as string,
      deletedAt: (head.deletedAt ?? 0) as Instant,
      bringBack: (at: Instant) => setDeleted(book, kind, head.id, null, at),
    }));
}
