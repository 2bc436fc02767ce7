import { wholeFrom } from '#calc/counts.ts';

/** Spoons of a set, in eighths of a teaspoon: a tablespoon is three teaspoons. */
export const spoonSizes = [24, 8, 4, 2, 1] as const;
export type SpoonSize = (typeof spoonSizes)[number];

/** The fewest spoons of a set that measure so many eighths of a teaspoon, largest first. */
export function spoonsFor(eighths: number): SpoonSize[] {
  let left = wholeFrom(0, 'eighths', eighths);
  const spoons: SpoonSize[] = [];
  for (const size of spoonSizes) {
    for (; left >= size; left -= size) spoons.push(size);
  }
  return spoons;
}

/** Drops in fives, as one counts them: 12 is 5, 5, 2. */
export function inFives(count: number): number[] {
  const fives = Array.from({ length: Math.floor(wholeFrom(0, 'count', count) / 5) }, () => 5);
  return count % 5 === 0 ? fives : [...fives, count % 5];
}
