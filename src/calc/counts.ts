/** A list the statistics only read. */
export type Counts = readonly number[];

/**
 * Lets pass only counts of an outcome that fit their totals, shot by shot.
 * Throws a RangeError for lists of unequal length, NaN, infinity, a negative count or x above n.
 */
export function demandCounts(x: Counts, n: Counts): void {
  if (x.length !== n.length) {
    throw new RangeError(`There are ${x.length} counts but ${n.length} totals.`);
  }
  for (let s = 0; s < n.length; s++) demandCount(x[s] ?? Number.NaN, n[s] ?? Number.NaN);
}

/** Lets pass only 0 <= x <= n, both finite; throws a RangeError otherwise. */
export function demandCount(x: number, n: number): void {
  if (!(x >= 0 && x <= n && Number.isFinite(n))) {
    throw new RangeError(`A count of ${x} out of ${n} cannot be.`);
  }
}

/** The value itself, or a RangeError naming it unless it is a whole number from `least` up. */
export function wholeFrom(least: number, name: string, value: number): number {
  if (!(Number.isSafeInteger(value) && value >= least)) {
    throw new RangeError(`${name} must be a whole number from ${least} up, not ${value}.`);
  }
  return value;
}

/** The value itself, or a RangeError naming it unless it lies between 0 and 1, both left out. */
export function betweenZeroAndOne(name: string, value: number): number {
  if (!(value > 0 && value < 1)) {
    throw new RangeError(`${name} must be above 0 and below 1, not ${value}.`);
  }
  return value;
}

/** The sum of a list. */
export function total(values: Counts): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}
