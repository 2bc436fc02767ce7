import { positive } from '#calc/range.ts';
import { toMl } from '#calc/units.ts';
import type { Material } from '#model/material.ts';
import type { Dose } from '#model/mix.ts';

/** A drop of a usual bottle, mL, and a level teaspoon of flake or powder, g (common practice, no source). */
export const usualDropMl = 0.05;
export const usualTeaspoonG = 3;

/** How a material's doses are measured. */
type Measured = Pick<Material, 'unit' | 'dropMl' | 'teaspoonG'>;

/**
 * A dose in the steps that a material's optics are counted in, drops of a liquid and eighths of a
 * teaspoon of anything else; null: drops of a powder or grams of a liquid, which nobody weighed.
 */
export function dosedSteps(
  { amount, unit }: Pick<Dose, 'amount' | 'unit'>,
  { unit: kept, dropMl, teaspoonG }: Measured,
): number | null {
  positive('amount', amount);
  if (stepsOfMaterial({ unit: kept }) === 'drop') {
    if (unit === 'drop') return amount;
    return unit === 'g' ? null : toMl(amount, unit) / (dropMl ?? usualDropMl);
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
