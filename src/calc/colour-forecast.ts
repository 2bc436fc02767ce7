import { deltaE2000, type Lab, luminance } from '#calc/colour.ts';
import { betweenZeroAndOne, wholeFrom } from '#calc/counts.ts';
import {
  type Body,
  blendedOptics,
  type Mix,
  mixOptics,
  type Optics,
  opticsLab,
  opticsLinear,
} from '#calc/optics.ts';
import { notNegative, positive } from '#calc/range.ts';

export { type Bands, bandsFromLinear, linearFromBands } from '#calc/bands.ts';
export { flakeCover, seenDepthMm, withFlake } from '#calc/flake.ts';
export {
  absorbFor,
  ksRatio,
  layer,
  layerFromCard,
  layerOver,
  reflectanceFromKs,
  stackedReflectance,
} from '#calc/layer.ts';
export { correctedLab, strengthFromPhoto } from '#calc/learning.ts';
export {
  type Body,
  blendedOptics,
  mixOptics,
  type Optics,
  opticsLab,
  opticsLinear,
} from '#calc/optics.ts';
export { colourantFromSwatch } from '#calc/swatch.ts';

/** How near a forecast usually comes. */
export type DoubtWord = 'close' | 'near' | 'rough' | 'no guess';

/** A pot that changes colour: how many flushes until the old one cannot be seen. */
export interface Purge {
  from: Optics;
  to: Optics;
  body: Body;
  /** What a flush leaves of the old colour, 0..1. */
  leftShare?: number;
  visibleDeltaE?: number;
  most?: number;
}

/** Colour that a mix should have, CIELAB (D65). RangeError for malformed optics, doses or body. */
export function forecastLab(mix: Mix): Lab {
  return opticsLab(mixOptics(mix.base, mix.doses), mix.body);
}

/** Colour of a laminate where side B makes up a share of the depth, CIELAB (D65). */
export function meetingLineLab(a: Optics, b: Optics, shareOfB: number, body: Body): Lab {
  return opticsLab(blendedOptics(a, b, shareOfB), body);
}

/** How much a bait hides, 0..1: its luminance over black by that over white. */
export function hiddenShare(
  optics: Optics,
  bait: { thicknessMm: number; white?: number; black?: number },
): number {
  const { thicknessMm, white = 0.85, black = 0.04 } = bait;
  const seen = (backing: number) => luminance(opticsLinear(optics, { thicknessMm, backing }));
  const overWhite = seen(positive('white', white));
  // A bait that swallows all light hides what lies under it.
  return overWhite <= 0 ? 1 : Math.min(seen(black) / overWhite, 1);
}

/**
 * How far off a forecast will typically be, CIEDE2000, and the word for it: what was measured on
 * first forecasts counts as four photos, the maker's own errors as one each (derived).
 * RangeError for a negative error.
 */
export function forecastDoubt(known: {
  errors: readonly number[];
  allOnCard: boolean;
  outside?: boolean;
}): { typicalDeltaE: number; word: DoubtWord } {
  let sum = 4 * (known.allOnCard ? 8 : 12) ** 2;
  for (const error of known.errors) sum += notNegative('errors', error) ** 2;
  const mean = Math.sqrt(sum / (4 + known.errors.length));
  const typicalDeltaE = Math.min(mean * (known.outside ? 1.5 : 1), Number.MAX_VALUE);
  return { typicalDeltaE, word: wordFor(typicalDeltaE) };
}

/**
 * Flushes until the old colour changes the new one by less than can be seen, at most `most`.
 * RangeError for a share outside 0..1 or malformed optics.
 */
export function purgeFlushes(purge: Purge): number {
  const left = betweenZeroAndOne('leftShare', purge.leftShare ?? 0.35);
  const visible = positive('visibleDeltaE', purge.visibleDeltaE ?? 2);
  const most = wholeFrom(0, 'most', purge.most ?? 6);
  const clean = opticsLab(purge.to, purge.body);
  for (let flushes = 0; flushes < most; flushes++) {
    const seen = meetingLineLab(purge.to, purge.from, left ** flushes, purge.body);
    if (deltaE2000(seen, clean) < visible) return flushes;
  }
  return most;
}

function wordFor(typicalDeltaE: number): DoubtWord {
  if (typicalDeltaE < 3) return 'close';
  if (typicalDeltaE < 6) return 'near';
  return typicalDeltaE < 12 ? 'rough' : 'no guess';
}
