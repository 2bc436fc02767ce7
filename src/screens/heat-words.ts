import { enoughRuns, type Heat, type LearntLoss } from '#calc/loss.ts';
import { plastisolGPerMl } from '#calc/pot-course.ts';
import { gFrom } from '#calc/units.ts';
import type { MouldId } from '#model/mould.ts';
import { massWords } from '#screens/amounts.ts';
import { countWords } from '#screens/words.ts';

type MassUnit = 'g' | 'oz';

/** As much as a kitchen scale takes at once: common practice, no source. */
const mostWeighedG = 5_000;

/** What to heat, on a key: `545 g, a guess`, or with its range, `545 g, 520–570`. */
export function shortHeatWords(heat: Heat, unit: MassUnit = 'g', gPerMl = plastisolGPerMl): string {
  const mass = weighWords(heat.heatMl * gPerMl, unit);
  return `${mass}, ${heat.isGuess ? 'a guess' : rangeWords(heat, unit, gPerMl)}`;
}

/** What to heat with what it comes from: `590 g with what is lost, 560–620 g in 8 of 10 pots. …` */
export function heatWords(heat: Heat, unit: MassUnit = 'g', gPerMl = plastisolGPerMl): string {
  const mass = weighWords(heat.heatMl * gPerMl, unit);
  const range = `${rangeWords(heat, unit, gPerMl)} in 8 of 10 pots`;
  return `${mass} with what is lost, ${range}. ${heatFromWords(heat)}`;
}

/** Whose loss it is: ours, or that of so many own pots. */
export function heatFromWords({ isGuess, runs }: Heat): string {
  if (!isGuess) return `From ${runs} of your pots.`;
  return `A guess: tell what was left of ${countWords(enoughRuns - runs, 'pot')} more.`;
}

/** The loss of a mould itself: `22 g stays in pot and injector, and its shots take 7 % more than they hold.` */
export function lossWords(
  { potMl, shareOf }: LearntLoss,
  mouldId: MouldId,
  unit: MassUnit = 'g',
): string {
  const stays = `${massWords(Math.max(0, potMl) * plastisolGPerMl, unit)} stays in pot and injector`;
  const share = Math.round(shareOf(mouldId) * 100);
  if (share === 0) return `${stays}; its shots take what they hold.`;
  return `${stays}; its shots take ${Math.abs(share)} % ${share > 0 ? 'more' : 'less'} than they hold.`;
}

/** As a scale is read: whole grams and ounces also of a big pot, where tenths of a kilogram or pound are too coarse. */
function weighWords(g: number, unit: MassUnit): string {
  const whole = unit === 'g' ? 1 : gFrom(1, 'oz');
  return g / whole >= 10 && g < mostWeighedG
    ? `${Math.round(g / whole)} ${unit}`
    : massWords(g, unit);
}

function rangeWords({ lowMl, highMl }: Heat, unit: MassUnit, gPerMl: number): string {
  const [low, high] = [weighWords(lowMl * gPerMl, unit), weighWords(highMl * gPerMl, unit)];
  // One unit behind both, where it is the same.
  const [number, word] = low.split(' ');
  return high.endsWith(` ${word}`) ? `${number}–${high}` : `${low}–${high}`;
}
