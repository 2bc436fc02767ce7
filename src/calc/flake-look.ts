import { type Lab, labFromLinear, rgb255FromLab } from '#calc/colour.ts';
import { piecesPerG } from '#calc/colour-dose.ts';
import { usualTeaspoonG } from '#calc/dose-steps.ts';
import {
  attenuationPerMm,
  flakeCover,
  mostMeanCover,
  seenDepthMm,
  withFlake,
} from '#calc/flake.ts';
import type { Optics } from '#calc/optics.ts';
import { type Linear, linearFromRgb255, rgb255FromHex } from '#calc/srgb.ts';
import { mapped } from '#calc/triple.ts';
import { toMl } from '#calc/units.ts';
import type { Material } from '#model/material.ts';
import type { Dose } from '#model/mix.ts';

/** Film of usual flake, micrometres (common practice, no source). */
const usualFilmUm = 50;

/** Area of a hexagon one wide between its flats. */
const HEX_AREA = Math.sqrt(3) / 2;

/** One flake in a pot. */
export interface FlakeDose {
  dose: Pick<Dose, 'amount' | 'unit'>;
  material: Pick<Material, 'flake' | 'teaspoonG' | 'swatch'>;
}

/** A bait with its flake. */
export interface FlakeLook {
  /** The mean of body and flake, or the flakes alone where they hide it. */
  lab: Lab;
  /** Share of its face that flake covers, 0..1. */
  cover: number;
  hidesBody: boolean;
  /** Some flake is left out: its size or look was not told, or it is dosed in drops. */
  isPartial: boolean;
}

/** What flake does to the colour of a bait. RangeError for an amount or a pot that is not above 0. */
export function flakeLook(
  lab: Lab,
  flakes: readonly FlakeDose[],
  bait: { optics: Optics; thicknessMm: number; baseMl: number },
): FlakeLook {
  const seenMm = seenDepthMm(attenuationPerMm(bait.optics), bait.thicknessMm);
  let open = 1;
  let sum = 0;
  let mean: Linear = [0, 0, 0];
  let isPartial = false;
  for (const { dose, material } of flakes) {
    const cover = coverOf(dose, material, { seenMm, baseMl: bait.baseMl });
    if (cover === null || material.swatch === null) {
      isPartial = true;
      continue;
    }
    const light = linearFromRgb255(rgb255FromHex(material.swatch));
    mean = mapped(mean, (part, at) => part + cover * light[at]);
    sum += cover;
    open *= 1 - cover;
  }
  if (sum === 0) return { lab, cover: 0, hidesBody: false, isPartial };
  const flake = mapped(mean, (part) => Math.min(part / sum, 1));
  const cover = 1 - open;
  const hidesBody = cover > mostMeanCover;
  const body = linearFromRgb255(rgb255FromLab(lab));
  const look = hidesBody ? flake : withFlake(body, flake, cover);
  return { lab: labFromLinear(look), cover, hidesBody, isPartial };
}

function coverOf(
  { amount, unit }: FlakeDose['dose'],
  { flake, teaspoonG }: FlakeDose['material'],
  bait: { seenMm: number; baseMl: number },
): number | null {
  if (!flake || unit === 'drop') return null;
  const spoons = unit === 'mL' ? amount / toMl(1, 'tsp') : amount;
  const grams = unit === 'g' ? amount : spoons * (teaspoonG ?? usualTeaspoonG);
  return flakeCover({
    piecesPerMl: (grams * piecesPerG({ ...flake, thicknessUm: usualFilmUm })) / bait.baseMl,
    areaMm2: flake.acrossMm ** 2 * (flake.cut === 'hex' ? HEX_AREA : 1),
    seenDepthMm: bait.seenMm,
  });
}
