import { toMl } from '#calc/units.ts';

export type VolumeUnit = 'cup' | 'floz' | 'mL';

const quarters = ['', '¼', '½', '¾'];

/** A volume in the person's unit, to what a person pours by: quarter cups, whole ounces, 5 mL. */
export function volumeWords(ml: number, unit: VolumeUnit): string {
  if (unit === 'mL') return `${Math.round(ml / 5) * 5} mL`;
  if (unit === 'floz') return `${Math.round(ml / toMl(1, 'floz'))} fl oz`;
  const steps = Math.round((ml / toMl(1, 'cup')) * 4);
  const whole = Math.floor(steps / 4);
  const text = `${whole === 0 && steps > 0 ? '' : whole}${quarters[steps % 4]}`;
  return `${text} ${steps && steps < 5 ? 'cup' : 'cups'}`;
}

/** One natural step of the unit, mL: a quarter cup, an ounce, 50 mL. */
export function volumeStepMl(unit: VolumeUnit): number {
  if (unit === 'mL') return 50;
  return unit === 'floz' ? toMl(1, 'floz') : toMl(0.25, 'cup');
}

/** A volume to be measured off exactly: to the mL, or to tenths of an ounce where the shop measures in those. */
export function exactWords(ml: number, unit: VolumeUnit): string {
  return loadWords(ml, unit === 'floz' ? 'floz' : 'mL');
}

/** What an injector draws or holds, in the person's unit, finer than a pot: whole mL or tenths of an ounce. */
export function loadWords(ml: number, unit: VolumeUnit): string {
  if (unit === 'mL') return `${Math.round(ml)} mL`;
  return `${Number((ml / toMl(1, 'floz')).toFixed(1))} fl oz`;
}
