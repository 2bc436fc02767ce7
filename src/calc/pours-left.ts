import { median } from '#calc/median.ts';
import type { StockLine } from '#calc/stock-level.ts';
import type { Material } from '#model/material.ts';

/** A usual pour is the middle of so many of the newest, and is not told from fewer than the least. */
const newest = 10;
const leastPours = 3;

/** What this shop usually takes of a material for one mix, in its own unit; null: too few to tell. */
export function usualUse(lines: readonly StockLine[]): number | null {
  const pours = new Map<string, number>();
  for (const { at, cause, change } of lines) {
    if (!('sessionId' in cause)) continue;
    // Both sides of a laminate are mixed in one act.
    const act = `${cause.sessionId} ${at}`;
    pours.set(act, (pours.get(act) ?? 0) - change);
  }
  const last = [...pours.values()].slice(-newest);
  return last.length < leastPours ? null : median(last);
}

/** For how many more mixes the level lasts, in whole ones; null: the usual use cannot be told. */
export function poursLeft(level: number, usual: number | null): number | null {
  if (usual === null || usual <= 0) return null;
  return Math.floor((level / usual) * (1 + 1e-9));
}

/** Why a material is on the list of what to buy; null: there is enough. */
export function buyReason(
  material: Pick<Material, 'reorderAt' | 'isAside' | 'kind'>,
  stock: { level: number; lines: readonly StockLine[] },
): 'out' | 'low' | 'runs-out' | null {
  if (material.isAside || stock.lines.length === 0) return null;
  if (stock.level === 0) return 'out';
  if (material.reorderAt !== null && stock.level <= material.reorderAt) return 'low';
  return poursLeft(stock.level, usualUse(stock.lines)) === 0 ? 'runs-out' : null;
}
