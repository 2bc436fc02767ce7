import type { Book } from '#store/book.ts';

/** Where a device keeps what it knows of its own glass and hand: never merged, never in a file. */
export const keyOf = (book: Book, name: string) => `${book.db.name} ${name}`;

/** What is kept under a key; null: nothing, or storage is closed to this page. */
export function read(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/** Keeps a text under a key. */
export function write(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // Storage is closed to this page: the count lives on the screen alone.
  }
}
