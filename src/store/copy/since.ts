import type { Book } from '#store/book.ts';
import { keepAside, keptAside, type LastCopy, type TestedCopy } from '#store/copy/aside.ts';
import type { Copy } from '#store/copy/take.ts';
import { columnsBetween } from '#store/history.ts';
import { announce } from '#store/notice.ts';

/** How the logbook stands to the last copy that left the phone. */
export interface SinceCopy {
  last: LastCopy | null;
  /** Sessions that ended since; all of them when there was no copy. */
  sessions: number;
  /** Things of the shop that were added or changed since. */
  things: number;
}

/** No session runs longer. */
const longestMs = 2 * 86_400_000;
const endOfTime = 4_102_444_800_000;
const heads = [
  'moulds',
  'injectors',
  'colourways',
  'materials',
  'mixes',
  'photos',
  'remarks',
  'ideas',
  'changes',
] as const;

/** What is only on this phone: all that came after the last copy. */
export async function sinceCopy(book: Book): Promise<SinceCopy> {
  const last = (await keptAside(book, 'last')) ?? null;
  const columns = await columnsBetween(book, last ? last.at - longestMs : 0, endOfTime);
  const all = await Promise.all(heads.map((table) => book.db.getAll(table)));
  const newest = last?.newest ?? '';
  const isNewer = ({ stamps }: { stamps: Record<string, string> }) =>
    Object.values(stamps).some((stamp) => stamp > newest);
  return {
    last,
    sessions: columns.filter(({ endedAt }) => endedAt > (last?.at ?? 0)).length,
    things: all.flat().filter(isNewer).length,
  };
}

/** How safe the copies are: the last one that left, and the last one that was tested. */
export async function copiesOf(
  book: Book,
): Promise<{ last: LastCopy | null; tested: TestedCopy | null }> {
  return {
    last: (await keptAside(book, 'last')) ?? null,
    tested: (await keptAside(book, 'tested')) ?? null,
  };
}

/** Notes that a copy was opened to its end and is whole. */
export async function noteTest(book: Book, tested: TestedCopy): Promise<void> {
  await keepAside(book, 'tested', tested);
  announce('meta');
}

/** Notes that a copy has left the phone. The newest stamp is that of before it was written. */
export async function noteCopy(
  book: Book,
  { file, counts }: Copy,
  about: Pick<LastCopy, 'at' | 'newest' | 'isLocked'>,
): Promise<void> {
  await keepAside(book, 'last', { ...about, counts, bytes: file.size });
  announce('meta');
}
