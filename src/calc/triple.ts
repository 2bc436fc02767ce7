import { finite } from '#calc/range.ts';

/** Three numbers that belong together, such as the channels of a colour. */
export type Triple = [number, number, number];

/** The triple itself, or a RangeError naming it unless it is three numbers from `least` to `most`. */
export function tripleWithin(
  name: string,
  value: Readonly<Triple>,
  least: number,
  most: number,
): Readonly<Triple> {
  if (value.length !== 3) {
    throw new RangeError(`${name} must be three numbers, not ${value.length}.`);
  }
  for (const part of value) {
    if (finite(name, part) < least || part > most) {
      throw new RangeError(`${name} must lie between ${least} and ${most}, not ${part}.`);
    }
  }
  return value;
}

/** What becomes of each of the three. */
export function mapped(
  value: Readonly<Triple>,
  each: (part: number, at: 0 | 1 | 2) => number,
): Triple {
  return [each(value[0], 0), each(value[1], 1), each(value[2], 2)];
}

/** The sum of the products of two triples. */
export function dot(a: Readonly<Triple>, b: Readonly<Triple>): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** The triple at right angles to two others. */
export function cross(a: Readonly<Triple>, b: Readonly<Triple>): Triple {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
