import type { Book } from '#store/book.ts';
import { keyOf, read, write } from '#store/own-lines.ts';

/** The packed text of a mix is never longer. */
export const mostLetters = 12_000;
/** So many links are kept, the newest first, each on a line. */
export const mostKept = 3;
/** One line: of a link that is too long so much that it is still refused as too long. */
const mostInLine = mostLetters + 1;

/** One was kept and the table has not said so yet. */
let isNews = false;

export const sentKey = (book: Book) => keyOf(book, 'sent mixes');

/** Keeps a link to a mix, as the address holds it, that the table of a running session takes the place of. */
export function keepSentMix(book: Book, packed: string): void {
  const lines = `${packed.slice(0, mostInLine)}\n${read(sentKey(book)) ?? ''}`;
  write(sentKey(book), lines.slice(0, mostKept * (mostInLine + 1)));
  isNews = true;
}

/** What the table says of a mix that was kept just now, once; null: nothing. */
export function sentNews(): string | null {
  const news = isNews ? 'The mix sent to you is kept.' : null;
  isNews = false;
  return news;
}
