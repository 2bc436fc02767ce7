import { gFrom, toMl } from '#calc/units.ts';
import type { StockUnit } from '#model/material.ts';
import { numberFrom } from '#screens/number-text.ts';
import { type VolumeUnit, volumeWords } from '#screens/volumes.ts';
import { countWords } from '#screens/words.ts';

/** The person's units for what lies on the shelf. */
export interface Units {
  volume: VolumeUnit;
  mass: 'g' | 'oz';
}

/** A unit that an amount of stock is typed or shown in. */
export type AmountUnit =
  | 'mL'
  | 'L'
  | 'tsp'
  | 'floz'
  | 'cup'
  | 'gal'
  | 'g'
  | 'kg'
  | 'oz'
  | 'lb'
  | 'piece';

/** One of each in the unit of the stock; the US ones are exact (NIST Handbook 44, App. C). */
const inStock: Readonly<Record<AmountUnit, number>> = {
  mL: 1,
  L: 1_000,
  tsp: toMl(1, 'tsp'),
  floz: toMl(1, 'floz'),
  cup: toMl(1, 'cup'),
  gal: toMl(1, 'gal'),
  g: 1,
  kg: 1_000,
  oz: gFrom(1, 'oz'),
  lb: gFrom(1, 'lb'),
  piece: 1,
};

/** What stands behind a number of this unit. */
export const amountUnitWords: Readonly<Record<AmountUnit, string>> = {
  mL: 'mL',
  L: 'L',
  tsp: 'tsp',
  floz: 'fl oz',
  cup: 'cups',
  gal: 'gal',
  g: 'g',
  kg: 'kg',
  oz: 'oz',
  lb: 'lb',
  piece: 'pieces',
};

/** How amounts are shown, for a person who wonders. */
export const roundingWords =
  'Shown to a step a kitchen can measure. Inside it is exact: a cup is 236.588 mL (NIST Handbook 44).';

/** The units that a person of these units may type an amount in, the smallest first. */
export function typedUnits(unit: StockUnit, units: Units): readonly AmountUnit[] {
  if (unit === 'piece') return ['piece'];
  if (unit === 'g') return units.mass === 'g' ? ['g', 'kg'] : ['oz', 'lb'];
  if (units.volume === 'mL') return ['mL', 'L'];
  return units.volume === 'floz' ? ['floz', 'gal'] : ['floz', 'cup', 'gal'];
}

/** The largest of them that an amount makes at least one of. */
export function unitFor(qty: number, unit: StockUnit, units: Units): AmountUnit {
  const all = typedUnits(unit, units);
  // A hair under a gallon is a gallon: what was typed in one unit is shown in it again.
  return all.findLast((one) => qty >= inStock[one] * 0.999) ?? all[0] ?? 'piece';
}

/** An amount of stock as text for a field in one of its units. */
export function amountText(qty: number, unit: AmountUnit): string {
  return String(Number((qty / inStock[unit]).toFixed(3)));
}

/** A typed amount in the unit of the stock; null: no number. May be below 0, for the schema to refuse. */
export function amountFrom(text: string, unit: AmountUnit): number | null {
  const typed = numberFrom(text);
  return typed === null ? null : typed * inStock[unit];
}

/** An amount of stock in words, to a step that a kitchen can measure. */
export function stockWords(qty: number, unit: StockUnit, units: Units): string {
  if (unit === 'piece') return countWords(Math.round(qty), 'piece');
  if (unit === 'g') return massWords(qty, units.mass);
  if (units.volume === 'mL') {
    return qty >= 1_000 ? `${(qty / 1_000).toFixed(1)} L` : `${fewPlaces(qty)} mL`;
  }
  if (qty >= inStock.gal) return `${(qty / inStock.gal).toFixed(1)} gal`;
  if (qty < inStock.floz / 2) return `${fewPlaces(qty / inStock.tsp)} tsp`;
  if (units.volume === 'cup' && qty >= inStock.cup) return volumeWords(qty, 'cup');
  return `${fewPlaces(qty / inStock.floz)} fl oz`;
}

/** A mass in words. */
export function massWords(g: number, unit: Units['mass']): string {
  if (unit === 'g') return g >= 1_000 ? `${(g / 1_000).toFixed(1)} kg` : `${fewPlaces(g)} g`;
  return g >= inStock.lb ? `${(g / inStock.lb).toFixed(1)} lb` : `${fewPlaces(g / inStock.oz)} oz`;
}

/** Whole cents as money, without a sign: the shop knows its own. */
export function moneyWords(cents: number): string {
  const whole = Math.round(cents);
  return `${Math.floor(whole / 100)}.${String(whole % 100).padStart(2, '0')}`;
}

/** Cents of one bait as money, to a tenth of a cent, without a sign. */
export function baitMoneyWords(cents: number): string {
  return (Math.round(cents * 10) / 1_000).toFixed(3);
}

/** Typed money in whole cents; null: no number. May be below 0, for the schema to refuse. */
export function centsFrom(text: string): number | null {
  const typed = numberFrom(text);
  return typed === null ? null : Math.round(typed * 100);
}

/** A flake's width in both systems: `0.035 in, 0.89 mm`; the inch is 25.4 mm. */
export function flakeWords({ acrossMm, cut }: { acrossMm: number; cut: 'hex' | 'square' }): string {
  return `${(acrossMm / 25.4).toFixed(3)} in, ${acrossMm.toFixed(2)} mm, ${cut}`;
}

/** One decimal below ten, whole from there on. */
function fewPlaces(value: number): string {
  return value < 9.95 ? String(Number(value.toFixed(1))) : String(Math.round(value));
}
