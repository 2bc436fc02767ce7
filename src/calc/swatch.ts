import { bandsFromLinear } from '#calc/bands.ts';
import { luminance } from '#calc/colour.ts';
import { absorbFor, layerFromCard } from '#calc/layer.ts';
import { checkedOptics, clearOptics, type Optics } from '#calc/optics.ts';
import { notNegative, positive } from '#calc/range.ts';
import { clipped, type Linear } from '#calc/srgb.ts';
import { tripleWithin } from '#calc/triple.ts';

/** How much a colourant hides, in words, when no black half was photographed. */
export type Hides = 'see-through' | 'cloudy' | 'solid';

/** One bait with one colourant, as its photo on the card shows it. */
export interface SwatchPhoto {
  overWhite: Readonly<Linear>;
  overBlack?: Readonly<Linear>;
  hides?: Hides;
  dosePerCup: number;
  thicknessMm: number;
  /** Reflectance of the paper and of the black strip. */
  white?: number;
  black?: number;
  /** The plastisol without colour; clear unless given. */
  base?: Optics;
}

/** Working values for the words, per mm at the swatch dose; no source. */
const SCATTER_PER_MM: Readonly<Record<Hides, number>> = {
  'see-through': 0.02,
  cloudy: 0.1,
  solid: 0.4,
};

/** A camera's pure black and pure white say nothing of a band; beyond these K would explode. */
const DARKEST = 0.002;
const BRIGHTEST = 0.985;

/** Gloss may lift a patch above white; more than this is no reflectance. */
const BRIGHTEST_PATCH = 1.5;

/**
 * Optics of a colourant per dose per cup from one photo: S from the black half by luminance, or from
 * a word; K band by band over white; what the base does itself is taken off.
 *
 * RangeError without a black half or a word, for a dose or thickness that is not above 0, and for
 * patches that are no reflectance.
 */
export function colourantFromSwatch(photo: SwatchPhoto): Optics {
  const dose = positive('dosePerCup', photo.dosePerCup);
  const base = checkedOptics(photo.base ?? clearOptics);
  const scatter = notNegative('scatterPerMm', scatterOf(photo));
  const body = { thicknessMm: photo.thicknessMm, backing: photo.white ?? 0.85 };
  const absorbPerMm = bandsFromLinear(patchOf('overWhite', photo.overWhite)).map((seen, band) => {
    const reflectance = Math.min(Math.max(seen, DARKEST), BRIGHTEST);
    const absorb = absorbFor(reflectance, { ...body, scatterPerMm: scatter });
    return Math.max(absorb - (base.absorbPerMm[band] ?? 0), 0) / dose;
  });
  return { absorbPerMm, scatterPerMm: Math.max(scatter - base.scatterPerMm, 0) / dose };
}

function scatterOf(photo: SwatchPhoto): number {
  const thicknessMm = positive('thicknessMm', photo.thicknessMm);
  if (photo.overBlack === undefined) {
    if (photo.hides === undefined || !Object.hasOwn(SCATTER_PER_MM, photo.hides)) {
      throw new RangeError('A swatch needs its black half or a word for how much it hides.');
    }
    return SCATTER_PER_MM[photo.hides];
  }
  return layerFromCard({
    overWhite: luminance(patchOf('overWhite', photo.overWhite)),
    overBlack: luminance(patchOf('overBlack', photo.overBlack)),
    white: photo.white ?? 0.85,
    black: photo.black ?? 0.04,
    thicknessMm,
  }).scatterPerMm;
}

function patchOf(name: string, patch: Readonly<Linear>): Linear {
  return clipped(tripleWithin(name, patch, 0, BRIGHTEST_PATCH));
}
