import { inFromMm, mmFromIn } from '#calc/units.ts';
import { numberFrom } from '#screens/number-text.ts';
import type { SettingsFacts } from '#store/settings.ts';

/** What a person measures a bait in. */
export type LengthUnit = NonNullable<SettingsFacts['lengthUnit']>;

/** Steps by hand, in the unit: whole mm, twentieths of an inch. */
const perUnit = { mm: 1, in: 20 } as const;
/** How far the steps go, in steps. */
const reach = { mm: [1, 40], in: [1, 31] } as const;

/** The unit of this shop's lengths; mm until it is chosen. */
export function lengthUnitOf({ lengthUnit = 'mm' }: Pick<SettingsFacts, 'lengthUnit'>): LengthUnit {
  return lengthUnit;
}

/** A length in words: `12.5 mm`, `0.49 in`. The inch is exactly 25.4 mm. */
export function lengthWords(mm: number, unit: LengthUnit): string {
  return `${tidyLength(mm, unit, 2)} ${unit}`;
}

/** From one length to another: `5 to 15 mm`. */
export function rangeWords(fromMm: number, toMm: number, unit: LengthUnit): string {
  return `${tidyLength(fromMm, unit, 2)} to ${lengthWords(toMm, unit)}`;
}

/** A length as text for a field, in the person's unit. */
export function lengthText(mm: number | null, unit: LengthUnit): string {
  return mm === null ? '' : String(tidyLength(mm, unit, 3));
}

/** A typed length in mm; an untouched text keeps the exact one, `wasMm`. Null: no number. */
export function lengthFrom(text: string, unit: LengthUnit, wasMm: number | null): number | null {
  if (wasMm !== null && text === lengthText(wasMm, unit)) return wasMm;
  const typed = numberFrom(text);
  return typed === null || unit === 'mm' ? typed : typed * mmFromIn(1);
}

/** The next length by hand, in mm: one step more or less, never out of what baits are. */
export function lengthStepped(mm: number, by: 1 | -1, unit: LengthUnit): number {
  const steps = Math.round((unit === 'mm' ? mm : inFromMm(mm)) * perUnit[unit]) + by;
  const [least, most] = reach[unit];
  const next = Math.min(Math.max(steps, least), most) / perUnit[unit];
  return unit === 'mm' ? next : mmFromIn(next);
}

/** One step by hand, in words. */
export function stepWords(unit: LengthUnit): string {
  return `${1 / perUnit[unit]} ${unit}`;
}

/** A sentence about a bound in mm, in the person's unit. */
export function boundIn(sentence: string, unit: LengthUnit): string {
  return sentence.replace(/(\d+(?:\.\d+)?) mm/, (_, mm) => lengthWords(Number(mm), unit));
}

function tidyLength(mm: number, unit: LengthUnit, places: number): number {
  return Number((unit === 'mm' ? mm : inFromMm(mm)).toFixed(places));
}
