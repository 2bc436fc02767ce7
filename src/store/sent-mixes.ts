import type { Book } from '#store/book.ts';
import { read, write } from '#store/own-lines.ts';
import { mostKept, mostLetters, sentKey } from '#store/sent-mix-in.ts';

/** A link to a mix that was opened while a session ran, as the address held it: nobody read it yet. */
export interface SentMix {
  packed: string;
  /** The person looks at it another time: it is not offered any more, but kept. */
  isLater: boolean;
}

/** Before a link that is looked at another time; no address holds one. */
const later = ' ';

/** What was sent and neither taken nor put away, newest first. */
export function sentMixes(book: Book): SentMix[] {
  const lines = (read(sentKey(book)) ?? '').split('\n');
  const sent = lines
    .filter((line) => line.trim() !== '')
    .map((line) => ({
      packed: line.trim().slice(0, mostLetters + 1),
      isLater: line.startsWith(later),
    }));
  const newest = new Map(sent.toReversed().map((one) => [one.packed, one]));
  return sent.filter((one) => newest.get(one.packed) === one).slice(0, mostKept);
}

/** Offers none of them again by itself. */
export function offerSentLater(book: Book): void {
  put(
    book,
    sentMixes(book).map(({ packed }) => ({ packed, isLater: true })),
  );
}

/** It was taken in, refused with a sentence, or put away. */
export function forgetSentMix(book: Book, packed: string): void {
  put(
    book,
    sentMixes(book).filter((one) => one.packed !== packed),
  );
}

/** Keeps one that was put away after all. */
export function putBackSentMix(book: Book, packed: string): void {
  forgetSentMix(book, packed);
  put(book, [{ packed, isLater: false }, ...sentMixes(book)]);
}

function put(book: Book, mixes: readonly SentMix[]): void {
  const lines = mixes.map(({ packed, isLater }) => `${isLater ? later : ''}${packed}`);
  write(sentKey(book), lines.join('\n'));
}
