import type { Colourway, ColourwayId } from '#model/gear.ts';
import { shortened } from '#screens/table/PotKeys.tsx';

/** What stands on the key of a colour. */
export function keyWords({ id, name }: Colourway, next: readonly ColourwayId[]): string {
  const turn = next.indexOf(id);
  return `${turn < 0 ? '' : `${turn + 1}. `}${shortened(name, 13)}`;
}

/** The words on the key first, then the whole name where they were cut, and whether its turn is next. */
export function mixLabel(colourway: Colourway, next: readonly ColourwayId[]): string {
  const { id, name } = colourway;
  const isCut = shortened(name, 13) !== name;
  return `${keyWords(colourway, next)}, mix${isCut ? ` ${name}` : ''}${next[0] === id ? ', next' : ''}`;
}
