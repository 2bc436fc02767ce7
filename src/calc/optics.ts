import { type Bands, checkedBands, linearFromBands } from '#calc/bands.ts';
import { type Lab, labFromLinear } from '#calc/colour.ts';
import { layersOver } from '#calc/layer.ts';
import { notNegative, positive, zeroToOne } from '#calc/range.ts';
import { clipped, type Linear } from '#calc/srgb.ts';

/** What plastic does to light: K by band and one grey S, per mm; of a colourant, per dose per cup. */
export interface Optics {
  absorbPerMm: Bands;
  scatterPerMm: number;
}

/** A bait on its paper: how thick it is and what its backing reflects (0..1). */
export interface Body {
  thicknessMm: number;
  backing: number;
}

/** Some of a colourant in a cup of plastisol, in the unit its swatch was made with. */
export interface Dose {
  colourant: Optics;
  dosePerCup: number;
  /** What was learnt of it: 1 as its swatch, 2 twice as strong. */
  strength?: number;
}

/** A bait that could be poured: base, colourants and body. */
export interface Mix {
  base: Optics;
  doses: readonly Dose[];
  body: Body;
}

/** Plastisol that neither colours nor clouds, for a shop without a bait of its bare base. */
export const clearOptics: Optics = {
  absorbPerMm: new Array<number>(16).fill(0),
  scatterPerMm: 0,
};

/** The optics themselves, or a RangeError unless they are 16 K and one S, none negative. */
export function checkedOptics({ absorbPerMm, scatterPerMm }: Optics): Optics {
  for (const absorb of checkedBands('absorbPerMm', absorbPerMm)) {
    notNegative('absorbPerMm', absorb);
  }
  notNegative('scatterPerMm', scatterPerMm);
  return { absorbPerMm, scatterPerMm };
}

/**
 * Optics of a base with colourants in it: K and S add up, each by itself (Kubelka-Munk, two
 * constants). RangeError for a negative dose, no strength or malformed optics.
 */
export function mixOptics(base: Optics, doses: readonly Dose[]): Optics {
  let mixed = checkedOptics(base);
  for (const { colourant, dosePerCup, strength = 1 } of doses) {
    const amount = notNegative('dosePerCup', dosePerCup) * positive('strength', strength);
    mixed = withMore(mixed, checkedOptics(colourant), amount);
  }
  return mixed;
}

/** Optics of two sides melted into each other, by the share of side B (0..1). */
export function blendedOptics(a: Optics, b: Optics, shareOfB: number): Optics {
  const share = zeroToOne('shareOfB', shareOfB);
  return withMore(withMore(clearOptics, checkedOptics(a), 1 - share), checkedOptics(b), share);
}

/** The optics with an amount of others added, unchecked. */
export function withMore(optics: Optics, added: Optics, amount: number): Optics {
  const { absorbPerMm } = added;
  return {
    absorbPerMm: optics.absorbPerMm.map((k, band) => k + amount * (absorbPerMm[band] ?? 0)),
    scatterPerMm: optics.scatterPerMm + amount * added.scatterPerMm,
  };
}

/** Light from a bait in linear sRGB, clipped to what a screen and a photo can hold (0..1). */
export function opticsLinear(optics: Optics, body: Body): Linear {
  const { scatterPerMm, absorbPerMm } = optics;
  const { thicknessMm, backing } = body;
  return clipped(linearFromBands(layersOver(absorbPerMm, { scatterPerMm, thicknessMm, backing })));
}

/** Colour of a bait in CIELAB (D65). RangeError for malformed optics or body. */
export function opticsLab(optics: Optics, body: Body): Lab {
  return labFromLinear(opticsLinear(optics, body));
}
