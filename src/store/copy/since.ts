import type { Book } from '#store/book.ts';
import { keepAside, keptAside, type LastCopy, type TestedCopy } from '#store/copy/aside.ts';
import { newestStamp } from '#store/copy/bring.ts';
import type { Copy } from '#store/copy/take.ts';
import { columnsInBatches } from '#store/history.ts';
import { announce } from '#store/notice.ts';

/** How the logbook stands to the last copy that left the phone. */
export interface SinceCopy {
  last: LastCopy | null;
  /** Sessions that ended since; all of them when there was no copy. */
  sessions: number;
  /** Sessions of before that were put right since. */
  putRight: number;
  photos: number;
  /** Lines of the stock journal. */
  movements: number;
  /** Other things of the shop that were added or changed since, the settings too. */
  things: number;
}

const heads = [
  'moulds',
  'injectors',
  'colourways',
  'materials',
  'mixes',
  'remarks',
  'ideas',
  'changes',
  'settings',
] as const;

/** What is only on this phone: all that came after the last copy. */
export async function sinceCopy(book: Book): Promise<SinceCopy> {
  const last = (await keptAside(book, 'last')) ?? null;
  const since: SinceCopy = { last, sessions: 0, putRight: 0, photos: 0, movements: 0, things: 0 };
  if (last && (await newestStamp(book)) === last.newest) return since;
  const newest = last?.newest ?? '';
  for await (const columns of columnsInBatches(book)) {
    for (const session of columns) {
      if (session.endedAt > (last?.at ?? 0)) since.sessions += 1;
      else if ((session.newest ?? '') > newest) since.putRight += 1;
    }
  }
  const isNewer = ({ stamps }: { stamps: Record<string, string> }) =>
    Object.values(stamps).some((stamp) => stamp > newest);
  const [all, photos, movements] = await Promise.all([
    Promise.all(heads.map((table) => book.db.getAll(table))),
    book.db.getAll('photos'),
    book.db.getAll('movements'),
  ]);
  since.things = all.flat().filter(isNewer).length;
  since.photos = photos.filter(isNewer).length;
  since.movements = movements.filter(({ stamp }) => stamp > newest).length;
  return since;
}

/** So many smaller changes weigh as much as a session. */
const changesPerSession = 20;
/** So many sessions may lie in one place only; fewer where the device keeps no second copy. */
const quietSessions = 3;
const quietAlone = 1;

/** Whether it is time for a copy, by what changed and by nothing else. */
export function isCopyDue(since: SinceCopy, hasSecondCopy: boolean): boolean {
  const { sessions, putRight, photos, movements, things } = since;
  const weight = sessions + (putRight + photos + movements + things) / changesPerSession;
  return weight >= (hasSecondCopy ? quietSessions : quietAlone);
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
