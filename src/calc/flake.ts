import { channelMeans } from '#calc/bands.ts';
import { luminance } from '#calc/colour.ts';
import { attenuation } from '#calc/layer.ts';
import { checkedOptics, type Optics } from '#calc/optics.ts';
import { notNegative, zeroToOne } from '#calc/range.ts';
import type { Linear } from '#calc/srgb.ts';
import { mapped, tripleWithin } from '#calc/triple.ts';

/** Flake that hangs in a bait. */
export interface FlakeField {
  piecesPerMl: number;
  areaMm2: number;
  seenDepthMm: number;
  /** Part of its area a piece turns to the eye: 1/2 at random (Cauchy), more when laid flat. */
  facing?: number;
}

/** Above this cover a mean of body and flake looks like neither: show the flake (working rule). */
export const mostMeanCover = 0.6;

/** Share of a bait's face that flake covers, placed at random (Poisson), 0..1. */
export function flakeCover(field: FlakeField): number {
  const piecesPerMm3 = notNegative('piecesPerMl', field.piecesPerMl) / 1000;
  const facingMm2 =
    notNegative('areaMm2', field.areaMm2) * zeroToOne('facing', field.facing ?? 0.5);
  const seenMm = notNegative('seenDepthMm', field.seenDepthMm);
  return -Math.expm1(-Math.min(piecesPerMm3 * facingMm2, Number.MAX_VALUE) * seenMm);
}

/** Depth that flake is seen from, mm: all of a clear bait, little of a dense one. */
export function seenDepthMm(attenuationPerMm: number, thicknessMm: number): number {
  const twice = 2 * notNegative('attenuationPerMm', attenuationPerMm);
  const depth = notNegative('thicknessMm', thicknessMm);
  return twice * depth < 1e-12 ? depth : -Math.expm1(-twice * depth) / twice;
}

/** How fast a bait dims what lies in it, per mm: the mean over the bands as the eye weighs them. */
export function attenuationPerMm(optics: Optics): number {
  const { absorbPerMm, scatterPerMm } = checkedOptics(optics);
  return luminance(channelMeans(absorbPerMm.map((absorb) => attenuation(absorb, scatterPerMm))));
}

/** Mean light of a body with flake over a share of it. RangeError for light outside 0..1. */
export function withFlake(body: Readonly<Linear>, flake: Readonly<Linear>, cover: number): Linear {
  zeroToOne('cover', cover);
  tripleWithin('flake', flake, 0, 1);
  return mapped(
    tripleWithin('body', body, 0, 1),
    (light, at) => (1 - cover) * light + cover * flake[at],
  );
}
