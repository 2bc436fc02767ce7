import type { Colourway, ColourwayId } from '#model/gear.ts';

/** What stands before the name on the key of a colour: which turn it has among those still to come. */
export function turnWords({ id }: Colourway, next: readonly ColourwayId[]): string {
  const turn = next.indexOf(id);
  return turn < 0 ? '' : `${turn + 1}. `;
}

/** What the key does, and whether its turn is next. */
export function turnSays({ id }: Colourway, next: readonly ColourwayId[]): string {
  return next[0] === id ? ', mix, next' : ', mix';
}
