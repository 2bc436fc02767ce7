import type { Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import type { Said, SaidOf } from '#model/entry.ts';

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

/** The places that hold no pot now. */
export function freeSlots({ potsInUse }: Table): number[] {
  return [0, 1, 2, 3, 4, 5].filter((slot) => potsInUse.every((pot) => pot.slot !== slot));
}

/** The mix in places that are free, so that every other pot stays; where too few are, in the first ones. */
export function besideOthers(said: Said, table: Table): Said {
  if (said.kind !== 'pot-mixed') return said;
  // A second pot is side B only when it is said to be: these stand apart, for layers or for later rounds.
  const free = freeSlots(table).toSorted((a, b) => Number(a <= 1) - Number(b <= 1) || a - b);
  return {
    ...said,
    isAlone: false,
    pots: said.pots.map((pot, index) => ({ ...pot, slot: free[index] ?? pot.slot })),
  };
}

/** A mix for a pot that is no side of a laminate goes where that pot stood. */
export function inPlaceOf(said: Said, { slot }: Pot): Said {
  if (said.kind !== 'pot-mixed' || said.isAlone || slot <= 1) return said;
  return { ...said, pots: said.pots.map((pot) => ({ ...pot, slot })) };
}
