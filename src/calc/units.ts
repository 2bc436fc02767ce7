import { notNegative, temperatureC } from '#calc/range.ts';

/** US measures of volume, as a recipe or an injector names them. */
export type VolumeUnit = 'mL' | 'floz' | 'cup' | 'tbsp' | 'tsp' | 'gal';

/** Measures of mass; `oz` is the ounce one weighs, never the fluid ounce. */
export type MassUnit = 'g' | 'oz' | 'lb';

/** A US gallon is exactly 231 cubic inches (NIST Handbook 44, App. C); the rest are its parts. */
const GALLON_ML = 231 * 2.54 ** 3;

const ML: Readonly<Record<VolumeUnit, number>> = {
  mL: 1,
  floz: GALLON_ML / 128,
  cup: GALLON_ML / 16,
  tbsp: GALLON_ML / 256,
  tsp: GALLON_ML / 768,
  gal: GALLON_ML,
};

/** The pound is exactly 453.59237 g (NIST Handbook 44, App. C). */
const POUND_G = 453.59237;

const G: Readonly<Record<MassUnit, number>> = { g: 1, oz: POUND_G / 16, lb: POUND_G };

/** Volume in mL. RangeError for a negative amount or an unknown unit. */
export function toMl(amount: number, unit: VolumeUnit): number {
  return notNegative('amount', amount) * factor(ML, unit);
}

/** Mass in g. RangeError for a negative amount or an unknown unit. */
export function gFrom(amount: number, unit: MassUnit): number {
  return notNegative('amount', amount) * factor(G, unit);
}

/** Length in mm; the inch is exactly 25.4 mm. RangeError for a negative length. */
export function mmFromIn(inches: number): number {
  return notNegative('inches', inches) * 25.4;
}

/** Inches from mm, exactly. RangeError below 0. */
export function inFromMm(mm: number): number {
  return notNegative('mm', mm) / 25.4;
}

/** °C from °F (NIST SP 811, B.8). RangeError at or below absolute zero. */
export function cFromF(f: number): number {
  return temperatureC('f', (f - 32) / 1.8);
}

/** °F from °C (NIST SP 811, B.8). RangeError at or below absolute zero. */
export function fFromC(c: number): number {
  return temperatureC('c', c) * 1.8 + 32;
}

function factor<Unit extends string>(factors: Readonly<Record<Unit, number>>, unit: Unit): number {
  if (!Object.hasOwn(factors, unit)) throw new RangeError(`unit is not known: ${unit}.`);
  return factors[unit];
}
