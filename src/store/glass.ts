import type { Instant } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';

/** What this device knows of its own glass and hand: never merged, never in a file. */
const keyOf = (book: Book, name: string) => `${book.db.name} ${name}`;

/** CSS px in a millimetre of this glass, as the person measured it; null: not measured. */
export function pxPerMmOf(book: Book): number | null {
  const kept = Number(read(keyOf(book, 'px-per-mm')));
  return kept >= 2 && kept <= 20 ? kept : null;
}

/** Keeps the size of this glass. */
export function keepPxPerMm(book: Book, pxPerMm: number): void {
  write(keyOf(book, 'px-per-mm'), String(pxPerMm));
}

/** A count that was broken off is of no cup any more after so long: nobody stirs one that long. */
const countLastsMs = 4 * 3_600_000;

/** What was counted so far of a mix for one volume, by line; empty: nothing, or hours ago. */
export function countedOf(book: Book, mixKey: string, now: Instant): number[] {
  try {
    const kept: unknown = JSON.parse(read(keyOf(book, 'counted')) ?? 'null');
    if (!isCounted(kept) || kept.mixKey !== mixKey) return [];
    const age = now - kept.at;
    return age >= 0 && age < countLastsMs ? kept.counts : [];
  } catch {
    return [];
  }
}

/** Keeps what was counted, so that a reload goes on from there. One mix at a time. */
export function keepCounted(
  book: Book,
  mixKey: string,
  counts: readonly number[],
  at: Instant,
): void {
  write(keyOf(book, 'counted'), JSON.stringify({ mixKey, counts, at }));
}

/** Forgets what was counted: the cup is full, or a new one begins. */
export function forgetCounted(book: Book): void {
  try {
    localStorage.removeItem(keyOf(book, 'counted'));
  } catch {
    // Storage is closed to this page: nothing was kept.
  }
}

/** What a session was begun without, to be asked at its table; empty: nothing. */
export function asksOf(book: Book, sessionId: string | null): string[] {
  const [of, ...asks] = (read(keyOf(book, 'asks')) ?? '').split(' ');
  return of === sessionId ? asks : [];
}

/** Keeps what the table is to ask in this session. One session at a time. */
export function keepAsks(book: Book, sessionId: string, asks: readonly string[]): void {
  write(keyOf(book, 'asks'), [sessionId, ...asks].join(' '));
}

function isCounted(kept: unknown): kept is { mixKey: string; counts: number[]; at: number } {
  if (typeof kept !== 'object' || kept === null) return false;
  const { mixKey, counts, at } = kept as Record<string, unknown>;
  return (
    typeof mixKey === 'string' &&
    typeof at === 'number' &&
    Array.isArray(counts) &&
    counts.every((count) => Number.isSafeInteger(count) && count >= 0)
  );
}

function read(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

function write(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // Storage is closed to this page: the count lives on the screen alone.
  }
}
