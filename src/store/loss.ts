import { type LearntLoss, learntLoss } from '#calc/loss.ts';
import type { Book } from '#store/book.ts';
import { allColumns } from '#store/history.ts';

/** What the pots of the whole history taught of the plastisol that no shot accounts for. */
export async function lossOf(book: Book): Promise<LearntLoss> {
  return learntLoss((await allColumns(book)).flatMap(({ runs = [] }) => runs));
}
