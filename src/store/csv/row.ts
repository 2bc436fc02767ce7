import type { Book } from '#store/book.ts';
import type { Carried } from '#store/copy/header.ts';
import { mayGoOn } from '#store/copy/refusal.ts';
import { breath } from '#store/steps.ts';

/** A line of a table that is not taken, and why. */
export interface Untaken {
  /** Of the file, from 1. */
  line: number;
  reason: string;
}

/** A line by the fields of its kind; empty text where it tells nothing. */
export interface InRow {
  line: number;
  /** Of a table whose cells are parted by semicolons: spreadsheets do so where the comma is a decimal sign. */
  hasDecimalComma: boolean;
  said: Readonly<Record<string, string>>;
}

/** Where and when a table is read. */
export interface Reading {
  book: Book;
  at: number;
  /** The zone of the person's clock: a table's times are its times. */
  zone: string;
  /** Ends the reading when the person stops it or its time is up. */
  signal?: AbortSignal;
}

/** Lines that are read before the page may draw, and the clock be asked, again. */
const piece = 200;

/** The lines one after the other. Throws `stopped` or `too-long` between two of them. */
export async function* inTime<Row>(rows: readonly Row[], signal: AbortSignal | undefined) {
  for (const [index, row] of rows.entries()) {
    if (index % piece === 0) await breath();
    mayGoOn(signal);
    yield row;
  }
}

/** Records made of the lines of a table, and the lines of which none could be made. */
export interface TakenIn {
  records: { table: Carried; record: unknown }[];
  untaken: Untaken[];
}
