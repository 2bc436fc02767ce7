import { cavityCount } from '#calc/cavity-layout.ts';
import type { Layout } from '#model/mould.ts';
import { countWords } from '#screens/words.ts';

/** Cavities of a mould: so many across by so many down. */
export interface Shape {
  rows: number;
  cols: number;
}

/** `2 × 4`: across by down, as people say it. */
export function shapeWords({ rows, cols }: Shape): string {
  return `${cols} × ${rows}`;
}

/** `2 × 4`, or `5 cavities` where they lie anywhere. */
export function layoutWords(layout: Layout): string {
  if (layout.kind === 'grid') return shapeWords(layout);
  return countWords(cavityCount(layout), 'cavity', 'cavities');
}
