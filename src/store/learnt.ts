import { type ColdLine, coldLineOf, flaggedBy, mouldsIn } from '#calc/cold-line.ts';
import type { Columns } from '#calc/columns.ts';
import type { MouldId } from '#model/mould.ts';
import type { Book } from '#store/book.ts';
import { allColumns } from '#store/history.ts';

const batchSize = 200;

/**
 * The digests of the whole history, oldest first, with cold shots as each mould's own history tells
 * them now. Mould by mould and batch by batch, so that the page keeps drawing in between.
 */
export async function learntColumns(book: Book): Promise<Columns[]> {
  const columns = await allColumns(book);
  const lines = new Map<MouldId, ColdLine>();
  for (const id of mouldsIn(columns)) {
    lines.set(id, coldLineOf(columns, id));
    await breath();
  }
  const flagged: Columns[] = [];
  for (let at = 0; at < columns.length; at += batchSize) {
    flagged.push(...flaggedBy(columns.slice(at, at + batchSize), lines));
    await breath();
  }
  return flagged;
}

/** What a sum gives that is worked out in steps, with the page drawing in between. */
export async function inSteps<T>(steps: Generator<void, T>): Promise<T> {
  let step = steps.next();
  while (!step.done) {
    await breath();
    step = steps.next();
  }
  return step.value;
}

/** Lets the page draw and hear presses before the next piece of a long sum. */
export function breath(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve));
}
