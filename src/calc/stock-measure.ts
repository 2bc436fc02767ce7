import { plastisolGPerMl } from '#calc/pot-course.ts';
import { positive } from '#calc/range.ts';
import { toMl } from '#calc/units.ts';
import type { Material, MaterialKind } from '#model/material.ts';
import type { DoseUnit } from '#model/mix.ts';

/** What turns a measured amount into stock. */
export type Measured = Pick<Material, 'kind' | 'unit' | 'dropMl' | 'teaspoonG' | 'densityGPerMl'>;

/** One drop, mL, until it is counted: 20 drops of water to 1 mL (USP <1101>: 45 to 55 mg a drop). */
export const usualDropMl = 0.05;

/** A level teaspoon, mL: exactly 1/768 of a US gallon (NIST Handbook 44, App. C). */
export const teaspoonMl = toMl(1, 'tsp');

/** Grams in a level teaspoon until it is weighed: flake 2.5 to 4 g, salt 6 g (from memory). */
const usualTeaspoonG: Partial<Record<MaterialKind, number>> = { flake: 3, salt: 6 };
const anyTeaspoonG = 3;

/** Plasticiser 0.973 g/mL and the rest as water (from memory). */
const usualGPerMl: Partial<Record<MaterialKind, number>> = {
  plastisol: plastisolGPerMl,
  softener: 0.973,
};
const anyGPerMl = 1;

/** One drop of it, mL: as the person counted it, or the usual one. */
export function dropMlOf(material: Measured): number {
  return material.dropMl ?? usualDropMl;
}

/** A level teaspoon of it, g: a powder as weighed or usual, a liquid by its density. */
export function teaspoonGOf(material: Measured): number {
  if (material.teaspoonG !== null) return material.teaspoonG;
  if (material.unit === 'mL') return teaspoonMl * gPerMlOf(material);
  return usualTeaspoonG[material.kind] ?? anyTeaspoonG;
}

/** What 1 mL of it weighs, g: a liquid by its density, a powder by its level teaspoon. */
export function gPerMlOf(material: Measured): number {
  if (material.unit === 'g') return teaspoonGOf(material) / teaspoonMl;
  return material.densityGPerMl ?? usualGPerMl[material.kind] ?? anyGPerMl;
}

/** A measured amount in the unit that the material is stocked in; pieces are pieces. */
export function stockAmount(
  { amount, unit }: { amount: number; unit: DoseUnit },
  material: Measured,
): number {
  if (material.unit === 'piece') return amount;
  const isLiquid = material.unit === 'mL';
  switch (unit) {
    case 'mL':
      return isLiquid ? amount : amount * gPerMlOf(material);
    case 'g':
      return isLiquid ? amount / gPerMlOf(material) : amount;
    case 'drop':
      return amount * dropMlOf(material) * (isLiquid ? 1 : gPerMlOf(material));
    case 'tsp':
      return amount * (isLiquid ? teaspoonMl : teaspoonGOf(material));
  }
}

/** One drop, mL, from so many that fill a measure or weigh so much. RangeError unless above 0. */
export function dropMlFrom(
  counted: { drops: number } & ({ mL: number } | { g: number }),
  material: Measured,
): number {
  const drops = positive('drops', counted.drops);
  if ('mL' in counted) return positive('mL', counted.mL) / drops;
  return positive('g', counted.g) / gPerMlOf(material) / drops;
}

/** A level teaspoon, g, from so many weighed together. RangeError unless above 0. */
export function teaspoonGFrom(weighed: { teaspoons: number; g: number }): number {
  return positive('g', weighed.g) / positive('teaspoons', weighed.teaspoons);
}

/**
 * What is in a jar, in the unit of its stock, from the scale: gross less tare. Below 0 when the jar
 * alone is said to weigh more than all of it. RangeError for pieces, which are counted.
 */
export function weighedLevel(
  { grossG, tareG }: { grossG: number; tareG: number },
  material: Measured,
): number {
  if (material.unit === 'piece') throw new RangeError('Pieces are counted, not weighed.');
  const netG = grossG - tareG;
  return material.unit === 'g' ? netG : netG / gPerMlOf(material);
}

/**
 * What a dose weighs, g, and whether the person measured what that rests on: the drop or the density
 * of a liquid, the teaspoon of a powder. Null: pieces, or it is in grams already.
 */
export function doseG(
  { amount, unit }: { amount: number; unit: DoseUnit },
  material: Measured,
): { g: number; isMeasured: boolean } | null {
  if (material.unit === 'piece' || unit === 'g') return null;
  const stock = stockAmount({ amount, unit }, material);
  if (material.unit === 'g') return { g: stock, isMeasured: material.teaspoonG !== null };
  const hasDensity = typeof material.densityGPerMl === 'number';
  const isMeasured = unit === 'drop' ? material.dropMl !== null && hasDensity : hasDensity;
  return { g: stock * gPerMlOf(material), isMeasured };
}
