import type { Instant } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';
import { keyOf, read, write } from '#store/own-lines.ts';

/** CSS px in a millimetre of this glass, as the person measured it; null: not measured. */
export function pxPerMmOf(book: Book): number | null {
  const kept = Number(read(keyOf(book, 'px-per-mm')));
  return kept >= 2 && kept <= 20 ? kept : null;
}

/** Keeps the size of this glass. */
export function keepPxPerMm(book: Book, pxPerMm: number): void {
  write(keyOf(book, 'px-per-mm'), String(pxPerMm));
}

/** What was counted of one mix for one volume, by line, and when last. */
interface Count {
  mixKey: string;
  counts: number[];
  at: Instant;
}

/** A count that was broken off is of no cup any more after so long: nobody stirs one that long. */
const countLastsMs = 4 * 3_600_000;
/** As many as the pots that stand on a table. */
const mostCounts = 6;

/** What was counted so far of a mix for one volume, by line; empty: nothing, or hours ago. */
export function countedOf(book: Book, mixKey: string, now: Instant): number[] {
  const kept = keptCounts(book).find((one) => one.mixKey === mixKey);
  const age = kept ? now - kept.at : -1;
  return kept && age >= 0 && age < countLastsMs ? kept.counts : [];
}

/** Keeps what was counted, so that a reload goes on from there. The six newest counts are kept. */
export function keepCounted(
  book: Book,
  mixKey: string,
  counts: readonly number[],
  at: Instant,
): void {
  const newest = [{ mixKey, counts, at }, ...otherCounts(book, mixKey)].slice(0, mostCounts);
  write(keyOf(book, 'counted'), JSON.stringify(newest));
}

/** Forgets what was counted of a mix: its cup is full, or a new one begins. */
export function forgetCounted(book: Book, mixKey: string): void {
  write(keyOf(book, 'counted'), JSON.stringify(otherCounts(book, mixKey)));
}

function otherCounts(book: Book, mixKey: string): Count[] {
  return keptCounts(book).filter((kept) => kept.mixKey !== mixKey);
}

function keptCounts(book: Book): Count[] {
  try {
    const kept: unknown = JSON.parse(read(keyOf(book, 'counted')) ?? '[]');
    return (Array.isArray(kept) ? kept : [kept]).filter(isCounted);
  } catch {
    return [];
  }
}

function isCounted(kept: unknown): kept is Count {
  if (typeof kept !== 'object' || kept === null) return false;
  const { mixKey, counts, at } = kept as Record<string, unknown>;
  return (
    typeof mixKey === 'string' &&
    typeof at === 'number' &&
    Array.isArray(counts) &&
    counts.every((count) => Number.isSafeInteger(count) && count >= 0)
  );
}
