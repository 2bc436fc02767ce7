import { type BaitCost, baitCost } from '#calc/cost.ts';
import { type PouredSide, pouredDoses } from '#calc/mix.ts';
import { stockOf } from '#calc/stock-level.ts';
import { type Measured, stockAmount } from '#calc/stock-measure.ts';
import { type StockPrice, stockPrice, unitCentsAt } from '#calc/stock-price.ts';
import type { SessionUse } from '#calc/used.ts';
import type { Material, MaterialId, MaterialKind } from '#model/material.ts';
import type { Dose, MixSide } from '#model/mix.ts';
import type { Movement } from '#model/movement.ts';
import type { Instant } from '#model/schemas.ts';

/** What a mL of a mix costs, in cents, and what of it has no price. */
export interface MixCost {
  plastisolCentsPerMl: number;
  colourCentsPerMl: number;
  /** Names of what could not be priced: the cost is at least what it says. */
  unpriced: string[];
}

/** A material with the price of one unit of its stock; null: not told. */
export interface Priced {
  material: Measured & { id: MaterialId; name: string };
  unitCents: number | null;
}

/** A material and what it cost over time. */
export interface MaterialPrice {
  material: Material;
  price: StockPrice;
}

/** What every material of a shelf cost over time, by what was bought. */
export function pricesOf(shelf: {
  materials: readonly Material[];
  movements: readonly Movement[];
  uses: readonly SessionUse[];
}): MaterialPrice[] {
  return shelf.materials.map((material) => {
    const { lines } = stockOf(material, shelf.movements, shelf.uses);
    return { material, price: stockPrice(lines, material) };
  });
}

/** The same at one instant: what was bought until then at moving average, else as the package says. */
export function pricedAt(
  prices: readonly MaterialPrice[],
  at: Instant,
): { material: Material; unitCents: number | null }[] {
  return prices.map(({ material, price }) => ({
    material,
    unitCents: unitCentsAt(price, material, at),
  }));
}

/** What makes the plastic itself softer, harder or last: it costs as plastic, not as colour. */
const bodyKinds = new Set<MaterialKind>(['plastisol', 'softener', 'hardener', 'stabiliser']);

/**
 * Cost of one mL of a mix. The sides of a laminate share the bait evenly. Doses are taken on top of
 * the base; the few drops that they add to its volume are left out.
 */
export function mixCost(
  mix: { baseMl: number; sides: readonly MixSide[] },
  priced: readonly Priced[],
): MixCost {
  const unpriced = new Set<string>();
  const unitOf = (id: MaterialId, name: string) => {
    const found = priced.find(({ material }) => material.id === id);
    if (found && found.unitCents !== null) return { ...found, unitCents: found.unitCents };
    unpriced.add(found?.material.name ?? name);
    return null;
  };
  const doseCost = (dose: Dose) => {
    const found = unitOf(dose.materialId, dose.name);
    if (!found) return { isBody: false, cents: 0 };
    const cents = stockAmount(dose, found.material) * found.unitCents;
    return { isBody: bodyKinds.has(found.material.kind), cents: cents / mix.baseMl };
  };
  let [plastisol, colour] = [0, 0];
  for (const { plastisolId, doses } of mix.sides) {
    if (plastisolId === null) unpriced.add('Plastisol');
    else plastisol += unitOf(plastisolId, 'Plastisol')?.unitCents ?? 0;
    for (const dose of doses) {
      const { isBody, cents } = doseCost(dose);
      if (isBody) plastisol += cents;
      else colour += cents;
    }
  }
  const sides = Math.max(1, mix.sides.length);
  return {
    plastisolCentsPerMl: plastisol / sides,
    colourCentsPerMl: colour / sides,
    unpriced: [...unpriced],
  };
}

/** Cents of what is measured out for the sides of a pot; null: something in it has no price. */
export function pouredCents(
  poured: readonly (PouredSide & { side: MixSide })[],
  priced: readonly Priced[],
): number | null {
  let cents = 0;
  for (const one of poured) {
    const { baseMl } = one;
    const sides = [{ ...one.side, doses: pouredDoses(one) }];
    const { plastisolCentsPerMl, colourCentsPerMl, unpriced } = mixCost({ baseMl, sides }, priced);
    if (unpriced.length > 0) return null;
    cents += baseMl * (plastisolCentsPerMl + colourCentsPerMl);
  }
  return cents;
}

/** What a mould gave so far, or is taken to give before its first shot. */
export interface MouldRun {
  shots: number;
  good: number;
  partMl: number;
  shotMl: number;
}

/**
 * Cost of one good bait of a mould from a mix. All that was poured and is in no good bait goes back
 * to the remelt jar. Null without a good bait.
 */
export function mixBaitCost(
  run: MouldRun,
  mix: MixCost,
  extra: { bagCents?: number; timeMin?: number; timeCentsPerMin?: number } = {},
): BaitCost | null {
  if (run.good === 0 || run.shots === 0) return null;
  // A sprue may be given smaller than it is: what came out was poured.
  const pouredMl = Math.max(run.shots * run.shotMl, run.good * run.partMl);
  const remeltBackMl = pouredMl - run.good * run.partMl;
  const { plastisolCentsPerMl, colourCentsPerMl } = mix;
  const batch = { good: run.good, partMl: run.partMl, pouredMl, remeltBackMl };
  return baitCost({ ...batch, plastisolCentsPerMl, colourCentsPerMl, ...extra });
}
