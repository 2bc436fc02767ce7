import { spoonText } from '#calc/dose.ts';
import type { OddDose } from '#calc/usual-dose.ts';
import type { DoseUnit } from '#model/mix.ts';
import { countWords } from '#screens/words.ts';

const fractions: Record<string, string> = {
  '1/8': '⅛',
  '1/4': '¼',
  '3/8': '⅜',
  '1/2': '½',
  '5/8': '⅝',
  '3/4': '¾',
  '7/8': '⅞',
};

/** A dose as it goes into the cup: `12 drops`, `1½ tsp`, `2.5 mL`. */
export function doseWords(amount: number, unit: DoseUnit): string {
  if (unit === 'drop') return countWords(tidy(amount), 'drop');
  if (unit !== 'tsp') return `${tidy(amount)} ${unit}`;
  const eighths = Math.round(amount * 8);
  if (Math.abs(eighths - amount * 8) > 1e-9) return `${tidy(amount)} tsp`;
  const [whole, part] = spoonText(eighths).split(' ');
  const last = part ?? whole ?? '';
  return `${part ? whole : ''}${fractions[last] ?? last} tsp`;
}

/** What a dose weighs, beside how it was measured: `0.62 g`, or `about 0.62 g` by the usual drop. */
export function gramWords({ g, isMeasured }: { g: number; isMeasured: boolean }): string {
  return `${isMeasured ? '' : 'about '}${tidy(g)} g`;
}

/** A share as whole per cent with its direction: `3 % more`, `2 % less`; nothing below half a per cent. */
export function errorWords(share: number): string {
  const percent = Math.round(Math.abs(share) * 100);
  if (percent === 0) return '';
  return `${percent} % ${share > 0 ? 'more' : 'less'}`;
}

/** How a dose was rounded: `Rounded up from 11.6 drops, 3 % more than the mix.`; empty: it was not. */
export function roundedWords(
  amount: number,
  wanted: number,
  unit: DoseUnit,
  errorShare: number,
): string {
  if (Math.abs(amount - wanted) < 0.005) return '';
  const way = amount > wanted ? 'up' : 'down';
  const error = errorWords(errorShare);
  const words = unit === 'drop' ? 'drops' : unit;
  // The plastisol is moved with the doses: of more of it a dose that was rounded up can be too little.
  const isOther = error !== '' && amount > wanted !== errorShare > 0;
  const by = error
    ? `${isOther ? 'in this much plastisol ' : ''}${error} than the mix`
    : 'right in this much plastisol';
  return `Rounded ${way} from ${tidy(wanted)} ${words}, ${by}.`;
}

/** The same in a few words, by the name of its material: `Black rounded up from 11.6 drops`. */
export function shortRoundedWords(
  name: string,
  amount: number,
  wanted: number,
  unit: DoseUnit,
): string {
  const words = unit === 'drop' ? 'drops' : unit;
  return `${name} rounded ${amount > wanted ? 'up' : 'down'} from ${tidy(wanted)} ${words}`;
}

/** A dose far from the usual, in one line. */
export function oddWords({ name, times }: OddDose): string {
  return times > 1
    ? `${name}: ${Math.round(times)} times what you usually take.`
    : `${name}: one ${Math.round(1 / times)}th of what you usually take.`;
}

/** The same in a few words: `Black: 6 times your usual`. */
export function shortOddWords(name: string, times: number): string {
  return `${name}: ${timesWords(times)} your usual`;
}

/** The same on a key: `Black 6 × usual`. */
export function oddKeyWords(name: string, times: number): string {
  return `${name} ${times > 1 ? `${Math.round(times)} ×` : timesWords(times)} usual`;
}

function timesWords(times: number): string {
  return times > 1 ? `${Math.round(times)} times` : `1/${Math.round(1 / times)} of`;
}

/** A number to two places at most. */
export function tidy(value: number): number {
  return Number(value.toFixed(value >= 10 ? 1 : 2));
}
