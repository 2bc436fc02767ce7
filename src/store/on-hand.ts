import { stockOf } from '#calc/stock-level.ts';
import type { MaterialId } from '#model/material.ts';
import type { Book } from '#store/book.ts';
import { shelfOf } from '#store/stock.ts';

/**
 * The materials that are on hand: not set aside, and not used up. One that was never bought or
 * counted is taken to be there, because nobody told.
 */
export async function onHandOf(book: Book): Promise<Set<MaterialId>> {
  const { materials, movements, uses } = await shelfOf(book);
  const there = materials.filter((material) => {
    const { level, lines } = stockOf(material, movements, uses);
    const isTold = lines.some(({ cause }) => 'movement' in cause);
    return !material.isAside && (!isTold || level > 0);
  });
  return new Set(there.map(({ id }) => id));
}
