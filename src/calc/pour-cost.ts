import { baitCost } from '#calc/cost.ts';
import type { MouldLoad } from '#calc/injector.ts';
import type { PouredSide } from '#calc/mix.ts';
import { shotsFrom } from '#calc/shots-from.ts';
import { stockAmount } from '#calc/stock-measure.ts';
import type { Material } from '#model/material.ts';

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
    if (!material || price === null) return null;
    colourCents += price * stockAmount({ amount, unit: dose.unit }, material);
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
