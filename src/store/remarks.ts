import { asHeirs, heirsOf } from '#calc/heirs.ts';
import type { Remark } from '#model/photo.ts';
import type { Book } from '#store/book.ts';
import { deletedHeadsOf, headsOf } from '#store/heads.ts';

/** What `remarksThat` reads. */
export const remarkTables = ['remarks', 'mixes'] as const;

/**
 * The notes that are so, and those of them that were taken off, newest first. One on a mix that has a
 * name by now, written where nobody knew that yet, is of its colour.
 */
export async function remarksThat(
  book: Book,
  isSo: (remark: Remark) => boolean,
): Promise<{ remarks: Remark[]; takenOff: Remark[] }> {
  const heirs = heirsOf(await book.db.getAll('mixes'));
  const known = (all: readonly Remark[]) => all.map((one) => asHeirs(one, heirs)).filter(isSo);
  return {
    remarks: known(await headsOf(book, 'remarks')),
    takenOff: known(await deletedHeadsOf(book, 'remarks')),
  };
}
