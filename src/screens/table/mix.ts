import type { SaidOf } from '#model/entry.ts';

/** Where a mix goes: the only pot on the table, or one side of a laminate. */
export type Place = 'only' | 'A' | 'B';

/**
 * The mix for its place. A colourway of two sides always takes the whole table. One side leaves the
 * other side's pot where it is.
 */
export function mixFor(mix: SaidOf<'pot-mixed'>, place: Place): SaidOf<'pot-mixed'> {
  if (place === 'only' || mix.pots.length > 1) return mix;
  const slot = place === 'A' ? 0 : 1;
  return { ...mix, isAlone: false, pots: mix.pots.map((pot) => ({ ...pot, slot })) };
}
