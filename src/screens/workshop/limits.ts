/** Between what and what a number of the shop can be set by steps. */
export interface Limits {
  least: number;
  most: number;
}

/** The value, or the end that it passed. */
export function within(value: number, { least, most }: Limits): number {
  return Math.min(most, Math.max(least, value));
}

/** `the most`, `the least`, or other words while no end is reached. */
export function endWords(value: number, { least, most }: Limits, otherwise: string): string {
  if (value >= most) return 'the most';
  return value <= least ? 'the least' : otherwise;
}
