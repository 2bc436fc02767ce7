import type { MaterialId } from '#model/material.ts';
import type { Movement } from '#model/movement.ts';
import type { Book } from '#store/book.ts';
import { headsOf } from '#store/heads.ts';

/**
 * The materials that are on hand as far as the stock journal tells: not set aside, and not said to be
 * used up. One that the journal never names is taken to be there.
 */
export async function onHandOf(book: Book): Promise<Set<MaterialId>> {
  const materials = await headsOf(book, 'materials');
  const movements = await book.db.getAll('movements');
  const there = materials.filter(({ id, isAside }) => {
    const own = movements.filter(({ materialId }) => materialId === id);
    return !isAside && !isUsedUp(own);
  });
  return new Set(there.map(({ id }) => id));
}

/** True when the last count found nothing and nothing was bought since. */
function isUsedUp(movements: readonly Movement[]): boolean {
  const back = new Set(
    movements.flatMap(({ says }) => (says.kind === 'taken-back' ? [says.target] : [])),
  );
  const [last] = movements
    .filter(({ id, says }) => !back.has(id) && (says.kind === 'counted' || says.kind === 'bought'))
    .sort((a, b) => b.at - a.at || (a.stamp < b.stamp ? 1 : -1));
  return last?.says.kind === 'counted' && last.says.level === 0;
}
