import { median } from '#calc/median.ts';

/** From how many times more or less than usual on a value is worth a second look (a working rule). */
const farTimes = 5;
/** Sums of the same values differ by less than this. */
const rounding = 1e-9;

/**
 * What a value usually is, when it is 5 times more or less than that; null: it is as usual, or there
 * is no usual yet. Values of 0 say nothing: nothing is always far off.
 */
export function farOff(value: number, earlier: readonly number[]): number | null {
  const known = earlier.filter((one) => one > 0);
  if (known.length === 0 || value <= 0) return null;
  const usual = median(known);
  return Math.abs(Math.log(value / usual)) >= Math.log(farTimes) - rounding ? usual : null;
}
