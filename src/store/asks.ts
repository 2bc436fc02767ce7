import type { Book } from '#store/book.ts';
import { keyOf, read, write } from '#store/own-lines.ts';

/** What a session was begun without, to be asked at its table; empty: nothing. */
export function asksOf(book: Book, sessionId: string | null): string[] {
  const [of, ...asks] = (read(keyOf(book, 'asks')) ?? '').split(' ');
  return of === sessionId ? asks : [];
}

/** Keeps what the table is to ask in this session. One session at a time. */
export function keepAsks(book: Book, sessionId: string, asks: readonly string[]): void {
  write(keyOf(book, 'asks'), [sessionId, ...asks].join(' '));
}
