import { baitCost } from '#calc/cost.ts';
import type { MouldLoad } from '#calc/injector.ts';
import type { PouredSide } from '#calc/mix.ts';
import { shotsFrom } from '#calc/shots-from.ts';
import { toMl } from '#calc/units.ts';
import type { Material } from '#model/material.ts';
import type { Dose } from '#model/mix.ts';

/** A metric drop: 20 to the mL (pharmacy, from memory). A bottle's own drop goes before. */
const usualDropMl = 0.05;
/** A level teaspoon of flake, g: methods-colour-plan check F19. */
const flakeTeaspoonG = 3;

/** A dose in the unit its material is kept in; null: nothing tells how the two go together. */
export function doseQty(
  dose: Pick<Dose, 'amount' | 'unit'>,
  material: Pick<Material, 'unit' | 'kind' | 'dropMl' | 'teaspoonG'>,
): number | null {
  const { amount, unit } = dose;
  if (unit === material.unit) return amount;
  if (material.unit === 'mL') {
    if (unit === 'drop') return amount * (material.dropMl ?? usualDropMl);
    return unit === 'tsp' ? toMl(amount, 'tsp') : null;
  }
  const teaspoonG = material.teaspoonG ?? (material.kind === 'flake' ? flakeTeaspoonG : null);
  return material.unit === 'g' && unit === 'tsp' && teaspoonG ? amount * teaspoonG : null;
}

/** What a poured side costs, in cents. */
export interface SideCost {
  plastisolCents: number;
  colourCents: number;
  volumeMl: number;
}

/** The cost of a side; null: the price of something in it is not known. */
export function sideCost(
  side: PouredSide,
  plastisol: Material | undefined,
  materials: ReadonlyMap<string, Material>,
): SideCost | null {
  const perMl = plastisol?.unit === 'mL' ? centsPerUnit(plastisol) : null;
  if (perMl === null) return null;
  let colourCents = 0;
  for (const { dose, amount } of side.lines) {
    const material = materials.get(dose.materialId);
    const price = material ? centsPerUnit(material) : null;
    const qty = material ? doseQty({ amount, unit: dose.unit }, material) : null;
    if (price === null || qty === null) return null;
    colourCents += price * qty;
  }
  return { plastisolCents: perMl * side.baseMl, colourCents, volumeMl: side.baseMl };
}

/** Cents of one bait when all of it is poured into one mould and every bait is good; null: not one shot. */
export function baitCents(costs: readonly SideCost[], mould: MouldLoad): number | null {
  const sum = (part: keyof SideCost) => costs.reduce((total, cost) => total + cost[part], 0);
  const pouredMl = sum('volumeMl');
  const shots = shotsFrom(pouredMl, mould);
  if (shots === 0) return null;
  return baitCost({
    good: shots * mould.cavities,
    partMl: mould.partMl,
    pouredMl,
    remeltBackMl: shots * mould.sprueMl,
    plastisolCentsPerMl: sum('plastisolCents') / pouredMl,
    colourCentsPerMl: sum('colourCents') / pouredMl,
  }).perBait;
}

function centsPerUnit({ package: bought }: Pick<Material, 'package'>): number | null {
  return bought ? bought.cents / bought.qty : null;
}
