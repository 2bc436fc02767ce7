import { plastisolGPerMl } from '#calc/pot-course.ts';
import { gFrom, toMl, type VolumeUnit } from '#calc/units.ts';

/** What was typed for how much: a volume, or shots of a mould. */
export type HowMuch = { ml: number } | { shots: number };

const fractions: Record<string, number> = {
  '½': 1 / 2,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
};
const units: Record<string, VolumeUnit> = {
  ml: 'mL',
  cup: 'cup',
  cups: 'cup',
  oz: 'floz',
  floz: 'floz',
  tsp: 'tsp',
  tbsp: 'tbsp',
  gal: 'gal',
};

/** Grams to each; `oz` is a fluid ounce here, as the trade says it of plastisol: common practice, no source. */
const masses: Record<string, number> = { g: 1, kg: 1_000, lb: gFrom(1, 'lb') };

/** A number as it is written by hand: `12`, `1.5`, `1,5`, `1 1/2`, `1½`; null: it is none. */
export function handNumber(text: string): number | null {
  const plain = text.trim().replace(',', '.');
  const signs = Object.keys(fractions).join('');
  const found = new RegExp(
    `^(?:(\\d+(?:\\.\\d+)?|\\.\\d+)|(\\d+)?\\s*(?:(\\d+)/(\\d+)|([${signs}])))$`,
  ).exec(plain);
  if (!found) return null;
  const [, decimal, whole, over, under, sign] = found;
  if (decimal !== undefined) return finite(Number(decimal));
  const part = sign ? (fractions[sign] ?? 0) : Number(over) / Number(under);
  return finite(Number(whole ?? 0) + part);
}

/** `140 mL`, `140 g` of plastisol, `1 1/2 cups`, `5 shots`; a bare number is in the person's own unit. Null: none of these. */
export function howMuch(text: string, own: 'cup' | 'floz' | 'mL'): HowMuch | null {
  const found = /^(.*?)\s*(fl\s*oz|[a-z]+)?\.?$/i.exec(text.trim());
  const amount = handNumber(found?.[1] ?? '');
  if (amount === null || amount <= 0) return null;
  const word = (found?.[2] ?? '').toLowerCase().replace(/\s/g, '');
  if (/^shots?$/.test(word)) return Number.isInteger(amount) ? { shots: amount } : null;
  const mass = Object.hasOwn(masses, word) ? masses[word] : undefined;
  if (mass) return { ml: (amount * mass) / plastisolGPerMl };
  const unit = word === '' ? own : Object.hasOwn(units, word) ? units[word] : undefined;
  return unit ? { ml: toMl(amount, unit) } : null;
}

/**
 * What was left of a pot, mL: `0`, `40 g`, `1.5 oz` on the scale, or a volume, `¼ cup`. A bare number is
 * in the shop's unit of mass. Null: none of these.
 */
export function leftMlFrom(text: string, mass: 'g' | 'oz'): number | null {
  const found = /^(.*?)\s*(g|oz)?\.?$/i.exec(text.trim());
  const amount = handNumber(found?.[1] ?? '');
  if (amount !== null) {
    const unit = (found?.[2]?.toLowerCase() ?? mass) === 'oz' ? 'oz' : 'g';
    return (unit === 'oz' ? gFrom(amount, 'oz') : amount) / plastisolGPerMl;
  }
  const volume = howMuch(text, 'mL');
  return volume && 'ml' in volume ? volume.ml : null;
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
