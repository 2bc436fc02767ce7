import { positive } from '#calc/range.ts';
import { toMl } from '#calc/units.ts';
import type { Material } from '#model/material.ts';
import type { Dose } from '#model/mix.ts';

/** A drop of a usual bottle, mL, and a level teaspoon of flake or powder, g (common practice, no source). */
export const usualDropMl = 0.05;
export const usualTeaspoonG = 3;

/** What a weighed drop was told with while no density was: both ways round it is the same weight. */
const weighedGPerMl = 1;

/** How a material's doses are measured. */
type Measured = Pick<Material, 'unit' | 'dropMl' | 'teaspoonG' | 'densityGPerMl'>;

/**
 * A dose in the steps that a material's optics are counted in, drops of a liquid and eighths of a
 * teaspoon of anything else; null: drops of a powder, or grams of a liquid of which
 * neither the drop nor the density was measured.
 */
export function dosedSteps(
  { amount, unit }: Pick<Dose, 'amount' | 'unit'>,
  { unit: kept, dropMl, teaspoonG, densityGPerMl }: Measured,
): number | null {
  positive('amount', amount);
  if (stepsOfMaterial({ unit: kept }) === 'drop') {
    if (unit === 'drop') return amount;
    const gPerMl = densityGPerMl ?? (dropMl === null ? null : weighedGPerMl);
    if (unit === 'g' && gPerMl === null) return null;
    return (unit === 'g' ? amount / (gPerMl ?? 1) : toMl(amount, unit)) / (dropMl ?? usualDropMl);
  }
  switch (unit) {
    case 'tsp':
      return 8 * amount;
    case 'mL':
      return (8 * amount) / toMl(1, 'tsp');
    case 'g':
      return (8 * amount) / (teaspoonG ?? usualTeaspoonG);
    default:
      return null;
  }
}

/** The step that a material's optics are counted in. */
export function stepsOfMaterial({ unit }: Pick<Material, 'unit'>): 'drop' | 'eighth' {
  return unit === 'mL' ? 'drop' : 'eighth';
}

/**
 * What a first dose of a material is given with: a colourant that is kept as a liquid by drops, a
 * powder and all else by eighths of a teaspoon.
 */
export function firstUnitOf({ kind, unit }: Pick<Material, 'kind' | 'unit'>): 'drop' | 'tsp' {
  return kind === 'colourant' && stepsOfMaterial({ unit }) === 'drop' ? 'drop' : 'tsp';
}
