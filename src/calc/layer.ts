import { notNegative, positive, zeroToOne } from '#calc/range.ts';

/** A layer of something cloudy, in one band of light: Kubelka and Munk's K and S, per mm. */
export interface Slab {
  absorbPerMm: number;
  scatterPerMm: number;
  thicknessMm: number;
}

/** How much of the light a layer throws back and lets through, on its own. */
export interface LayerLight {
  reflectance: number;
  transmittance: number;
}

/** A bait that lies half on white and half on black, as the camera sees both halves. */
export interface CardPair {
  overWhite: number;
  overBlack: number;
  /** Reflectance of the backings themselves. */
  white: number;
  black: number;
  thicknessMm: number;
}

/** Denser than any dye; beyond it the formulas would overflow. */
const DENSEST_PER_MM = 1e6;
const THICKEST_MM = 1e6;

/** Where the search for an absorption ends: nothing left to see at a hundredth of a mm. */
const MOST_ABSORBED_PER_MM = 50;

/** K/S of a layer too thick to see through (Kubelka and Munk 1931). RangeError outside (0, 1]. */
export function ksRatio(reflectance: number): number {
  positive('reflectance', zeroToOne('reflectance', reflectance));
  return (1 - reflectance) ** 2 / (2 * reflectance);
}

/** Reflectance of a layer too thick to see through, from its K/S. RangeError for a negative one. */
export function reflectanceFromKs(ks: number): number {
  notNegative('ks', ks);
  return 1 / (1 + ks + Math.sqrt(ks) * Math.sqrt(ks + 2));
}

/**
 * What a layer reflects and transmits (Kubelka 1948, without a division by S so that a clear one is
 * no exception). RangeError for a negative or absurd K, S or thickness.
 */
export function layer(slab: Slab): LayerLight {
  return lightOf(
    perMm('absorbPerMm', slab.absorbPerMm),
    perMm('scatterPerMm', slab.scatterPerMm),
    depthMm(slab.thicknessMm),
  );
}

/** How fast light dies out on its way through, per mm: the root of K (K + 2 S). */
export function attenuation(absorbPerMm: number, scatterPerMm: number): number {
  return Math.sqrt(absorbPerMm * (absorbPerMm + 2 * scatterPerMm));
}

/**
 * Reflectance of a layer that lies on something (Kubelka 1954).
 * RangeError for shares outside 0..1 or a layer that gives back more light than it gets.
 */
export function stackedReflectance(top: Readonly<LayerLight>, underReflectance: number): number {
  const back = zeroToOne('reflectance', top.reflectance);
  const through = zeroToOne('transmittance', top.transmittance);
  const under = zeroToOne('underReflectance', underReflectance);
  if (back + through > 1 + 1e-9) {
    throw new RangeError('A layer cannot give back more light than falls on it.');
  }
  return reflectanceOver(under, { reflectance: back, transmittance: through });
}

/** Reflectance of a layer over a backing, 0..1. RangeError as for `layer`. */
export function layerOver(slab: Slab & { backing: number }): number {
  return reflectanceOver(zeroToOne('backing', slab.backing), layer(slab));
}

/** Reflectance of layers of one scatter and depth over one backing, K by K. RangeError as above. */
export function layersOver(
  absorbsPerMm: readonly number[],
  slab: { scatterPerMm: number; thicknessMm: number; backing: number },
): number[] {
  const scatter = perMm('scatterPerMm', slab.scatterPerMm);
  const depth = depthMm(slab.thicknessMm);
  const backing = zeroToOne('backing', slab.backing);
  return absorbsPerMm.map((absorb) =>
    reflectanceOver(backing, lightOf(perMm('absorbPerMm', absorb), scatter, depth)),
  );
}

/**
 * The K that gives a layer its reflectance, between 0 (brighter than K = 0 allows) and 50 per mm.
 * RangeError as for `layer`.
 */
export function absorbFor(
  reflectance: number,
  slab: { scatterPerMm: number; thicknessMm: number; backing: number },
): number {
  zeroToOne('reflectance', reflectance);
  if (reflectance >= layerOver({ ...slab, absorbPerMm: 0 })) return 0;
  let low = 0;
  let high = MOST_ABSORBED_PER_MM;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (layerOver({ ...slab, absorbPerMm: middle }) > reflectance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * K and S of a layer seen over white and over black: the exact inverse, kept within what a layer
 * can do when the photo is noisy. RangeError for shares outside 0..1, no thickness, or backings too
 * much alike.
 */
export function layerFromCard(pair: CardPair): { absorbPerMm: number; scatterPerMm: number } {
  const seenWhite = zeroToOne('overWhite', pair.overWhite);
  const seenBlack = zeroToOne('overBlack', pair.overBlack);
  const white = positive('white', zeroToOne('white', pair.white));
  const black = zeroToOne('black', pair.black);
  const depth = positive('thicknessMm', pair.thicknessMm);
  const room = white * black * (seenWhite - seenBlack) + black - white;
  if (room >= 0) throw new RangeError('white and black are too much alike to tell K from S.');
  const exact = (seenWhite * black - seenBlack * white) / room;
  const back = Math.min(Math.max(exact, 1e-4), 0.97);
  const squared = ((seenWhite - back) * (1 - back * white)) / white;
  // More than 1 - R0 would be a layer that makes light; then it absorbs nothing.
  const through = Math.min(Math.sqrt(Math.max(squared, 1e-6)), 1 - back);
  const excess = Math.max(((1 - back) ** 2 - through ** 2) / (2 * back), 0);
  const b = Math.sqrt(excess * (excess + 2));
  const x = (b * back) / through;
  const scatterPerMm = (b < 1e-9 ? back / through : Math.asinh(x) / b) / depth;
  return { absorbPerMm: scatterPerMm * excess, scatterPerMm };
}

function lightOf(absorb: number, scatter: number, depth: number): LayerLight {
  const kappa = attenuation(absorb, scatter);
  if (kappa * depth < 1e-6) {
    const through = 1 / (1 + (absorb + scatter) * depth);
    return { reflectance: scatter * depth * through, transmittance: through };
  }
  const left = Math.exp(-kappa * depth);
  const lost = -Math.expm1(-2 * kappa * depth);
  const whole = (absorb + scatter) * lost + kappa * (1 + left * left);
  return { reflectance: (scatter * lost) / whole, transmittance: (2 * kappa * left) / whole };
}

function reflectanceOver(under: number, { reflectance, transmittance }: LayerLight): number {
  const kept = 1 - reflectance * under;
  if (kept <= 0) return reflectance;
  return Math.min(reflectance + (transmittance * transmittance * under) / kept, 1);
}

function depthMm(value: number): number {
  if (notNegative('thicknessMm', value) > THICKEST_MM) {
    throw new RangeError(`thicknessMm must be at most ${THICKEST_MM}, not ${value}.`);
  }
  return value;
}

function perMm(name: string, value: number): number {
  if (notNegative(name, value) > DENSEST_PER_MM) {
    throw new RangeError(`${name} must be at most ${DENSEST_PER_MM}, not ${value}.`);
  }
  return value;
}
