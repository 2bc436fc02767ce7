import { standingOf } from '#calc/log.ts';
import { type Use, unpackedUses, usesOf } from '#calc/used.ts';
import type { Material, MaterialId } from '#model/material.ts';
import type { Book } from '#store/book.ts';
import { columnsBackFrom } from '#store/history.ts';

/** A plastisol that so many sessions did without is not the usual one any more. */
const mostSessions = 30;

/** What pots can be mixed from: every plastisol that is not set aside. */
export function plastisolsOf(materials: readonly Material[]): Material[] {
  return materials.filter(({ kind, isAside }) => kind === 'plastisol' && !isAside);
}

/**
 * The plastisol that was poured last, of those that can be; else the only one there is. Null: there is
 * none, or nothing tells which of several.
 */
export async function usualPlastisol(
  book: Book,
  materials: readonly Material[],
): Promise<MaterialId | null> {
  const bases = plastisolsOf(materials);
  if (bases.length < 2) return bases[0]?.id ?? null;
  const ids = new Set(bases.map(({ id }) => id));
  const last = (uses: readonly Use[]) =>
    uses
      .filter(({ materialId }) => ids.has(materialId))
      .toSorted((a, b) => a.at - b.at)
      .at(-1);
  const running = last(usesOf(standingOf(await book.db.getAll('entries'))));
  if (running) return running.materialId;
  for (const session of await columnsBackFrom(book, null, mostSessions)) {
    const found = last(unpackedUses(session));
    if (found) return found.materialId;
  }
  return null;
}
