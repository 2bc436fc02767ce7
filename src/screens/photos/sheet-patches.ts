import { type ReadSheet, readSheet } from '#calc/card-reading.ts';
import type { Patch } from '#calc/patch.ts';
import type { Tapped } from '#screens/photos/use-patches.ts';

/** The sheet around a bait, to be tapped first. */
export const sheetTaps: readonly Tapped[] = [
  { key: 'white', word: 'White paper' },
  { key: 'farWhite', word: 'White paper, other side' },
  { key: 'grey', word: 'Grey card' },
];

/** Said when the paper is not lighter than the grey card. */
export const mixedUpWords =
  'The grey card is not darker than the white paper here. Tap both again.';

/** The sheet that was tapped; null: not all of it yet; a sentence when it cannot be one. */
export function tappedSheet(patchOf: (key: string) => Patch | null): ReadSheet | string | null {
  const [white, farWhite, grey] = ['white', 'farWhite', 'grey'].map(patchOf);
  if (!white || !farWhite || !grey) return null;
  return readSheet({ white, farWhite, grey }) ?? mixedUpWords;
}
