import type { SaidOf } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';

/** The same pots, filled with another colourway of as many sides: it was no pour of the old one's mix. */
export function mixedAs(said: SaidOf<'pot-mixed'>, colourway: Colourway): SaidOf<'pot-mixed'> {
  return {
    ...said,
    colourwayId: colourway.id,
    name: colourway.name,
    pots: said.pots.map((pot, index) => ({
      ...pot,
      ...colourway.sides[index],
      ...(pot.mix ? { mix: null } : {}),
    })),
  };
}
