import { firstUnitOf, usualDropMl } from '#calc/dose-steps.ts';
import { buyReason, poursLeft, usualUse } from '#calc/pours-left.ts';
import { isLevelTold, type Stock, stockOf } from '#calc/stock-level.ts';
import { type StockPrice, stockPrice } from '#calc/stock-price.ts';
import type { Material, MaterialKind } from '#model/material.ts';
import { stockWords, type Units } from '#screens/amounts.ts';
import { countWords } from '#screens/words.ts';
import type { SettingsFacts } from '#store/settings.ts';
import type { Shelf } from '#store/stock.ts';

/** One material as the shelf shows it. */
export interface Jar {
  material: Material;
  stock: Stock;
  price: StockPrice;
  /** Whole pours that are left; null: too few to tell. */
  left: number | null;
  reason: 'out' | 'low' | 'runs-out' | null;
  /** How full it is, 0 to 1; null: never counted nor bought. */
  share: number | null;
}

/** The words for a kind, one and many. */
export const kindWords: Readonly<Record<MaterialKind, [one: string, many: string]>> = {
  plastisol: ['Plastisol', 'Plastisol'],
  softener: ['Softener', 'Softener'],
  hardener: ['Hardener', 'Hardener'],
  stabiliser: ['Heat stabiliser', 'Heat stabiliser'],
  colourant: ['Colour', 'Colours'],
  flake: ['Flake', 'Flakes'],
  scent: ['Scent', 'Scents'],
  salt: ['Salt', 'Salt'],
  hook: ['Hook', 'Hooks'],
  bag: ['Bag', 'Bags'],
  other: ['Other', 'Other'],
};

/** Every material that is not set aside, by kind as they are listed, then by name. */
export function jarsOf(shelf: Shelf): Jar[] {
  const kinds = Object.keys(kindWords);
  return shelf.materials
    .map((material) => jarOf(material, shelf))
    .sort(
      ({ material: a }, { material: b }) =>
        Number(a.isAside) - Number(b.isAside) ||
        kinds.indexOf(a.kind) - kinds.indexOf(b.kind) ||
        a.name.localeCompare(b.name),
    );
}

/** One material with its level, price and what is left of it. */
export function jarOf(material: Material, { movements, uses }: Shelf): Jar {
  const stock = stockOf(material, movements, uses);
  return {
    material,
    stock,
    price: stockPrice(stock.lines, material),
    left: poursLeft(stock.level, usualUse(stock.lines)),
    reason: isLevelTold(stock) ? buyReason(material, stock) : null,
    share: shareOf(material, stock),
  };
}

/** How full the jar is, against a full package or what it was last filled to, whichever is more. */
function shareOf(material: Material, { level, lines }: Stock): number | null {
  if (!isLevelTold({ lines })) return null;
  const filled = lines.findLast(
    ({ cause }) =>
      'movement' in cause &&
      (cause.movement.says.kind === 'bought' || cause.movement.says.kind === 'counted'),
  );
  const full = Math.max(material.package?.qty ?? 0, filled?.level ?? 0, level);
  return full > 0 ? level / full : 0;
}

/** What went of a jar and nobody wrote down; a few drops in drops, which a jar's own measure is too coarse for. */
export function missingWords(
  { material, stock }: Pick<Jar, 'material' | 'stock'>,
  units: Units,
): string {
  const drops = stock.missing / (material.dropMl ?? usualDropMl);
  if (firstUnitOf(material) === 'drop' && drops < 100) return countWords(Math.round(drops), 'drop');
  return stockWords(stock.missing, material.unit, units);
}

/** What stands under a jar: the pours that are left where they can be told, else the level. */
export function leftWords({ material, stock, left }: Jar, units: Units): string {
  if (!isLevelTold(stock)) return 'not counted yet';
  if (stock.missing > 0) return `${missingWords({ material, stock }, units)} missing`;
  if (left !== null && stock.level > 0) {
    return left === 0 ? 'less than a pour' : `${countWords(left, 'pour')} left`;
  }
  return stockWords(stock.level, material.unit, units);
}

/** Why a thing is on the list of what to buy. */
export const reasonWords = { out: 'Out', low: 'Low', 'runs-out': 'Low' } as const;

/** The units of the person. */
export function unitsOf({ volumeUnit, massUnit }: SettingsFacts): Units {
  return { volume: volumeUnit, mass: massUnit ?? 'g' };
}

/** Whether it is ticked on the list: a purchase after the tick ends it. */
export function isTicked({ material, stock }: Jar): boolean {
  const tickedAt = material.tickedAt ?? null;
  if (tickedAt === null) return false;
  return !stock.lines.some(
    ({ cause }) =>
      'movement' in cause &&
      cause.movement.says.kind === 'bought' &&
      cause.movement.writtenAt >= tickedAt,
  );
}
