import { cFromF, fFromC, toMl } from '#calc/units.ts';
import type { VolumeUnit } from '#screens/volumes.ts';

/** The number in a typed text, with point or comma; null: it is none. */
export function numberFrom(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  const number = /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
  // Four hundred digits are a number to a person and Infinity to this machine.
  return Number.isFinite(number) ? number : null;
}

/** A temperature as text for a field, in the person's unit. */
export function tempText(tempC: number, unit: 'C' | 'F'): string {
  return tidy(unit === 'C' ? tempC : fFromC(tempC), 1);
}

/** A typed temperature in °C; null: no number, or below absolute zero. */
export function tempFrom(text: string, unit: 'C' | 'F'): number | null {
  const typed = numberFrom(text);
  if (typed === null || typed < -270) return null;
  return unit === 'C' ? typed : cFromF(typed);
}

/** A volume as text for a field, in the person's unit. */
export function volumeText(ml: number, unit: VolumeUnit): string {
  return tidy(ml / toMl(1, unit), 2);
}

/** A typed volume in mL; null: no number, or below 0. */
export function volumeFrom(text: string, unit: VolumeUnit): number | null {
  const typed = numberFrom(text);
  return typed === null || typed < 0 ? null : toMl(typed, unit);
}

/** What stands behind a number of this unit. */
export const volumeUnitWords: Record<VolumeUnit, string> = {
  cup: 'cups',
  floz: 'fl oz',
  mL: 'mL',
};

function tidy(value: number, places: number): string {
  return String(Number(value.toFixed(places)));
}
