import type { Lab } from '#calc/colour.ts';
import { forecastLab } from '#calc/colour-forecast.ts';
import { dosedSteps } from '#calc/dose-steps.ts';
import type { KnownColourant } from '#calc/guess.ts';
import { type PhotographedMix, strengthsFromPhotos } from '#calc/learning.ts';
import { type Body, clearOptics, type Optics } from '#calc/optics.ts';
import { toMl } from '#calc/units.ts';
import type { Material } from '#model/material.ts';
import type { Mix, MixSide } from '#model/mix.ts';
import type { Photo, PhotoId, PhotoReading } from '#model/photo.ts';

/** Everything in the logbook that colour is worked out from. */
export interface ColourShop {
  /** Also those that were taken off: old mixes hold them. */
  materials: readonly Material[];
  mixes: readonly Mix[];
  /** Of baits, not taken off. */
  photos: readonly Photo[];
  /** The sides of its mix as they really went into the pot, by photo; absent: as they are written. */
  poured?: ReadonlyMap<PhotoId, readonly MixSide[]>;
}

/** One dose of a colourant as the optics count it; null: in a unit that nobody weighed. */
export interface SideDose {
  colourant: KnownColourant;
  name: string;
  dosePerCup: number | null;
}

/** A bait on a photo whose colour was read without a fault, and the side that was poured. */
export interface TaughtBait {
  photo: Photo;
  reading: PhotoReading;
  mix: Mix;
  side: MixSide;
  body: Body;
}

/** Baits lie on white paper when they are photographed and when they are forecast. */
export const paperBacking = 0.85;

/** The colourants of one side of a mix; what does not colour is left out. */
export function dosesOf(
  shop: ColourShop,
  mix: Mix,
  side: MixSide,
  strengths: ReadonlyMap<string, number> = new Map(),
): SideDose[] {
  const cups = mix.baseMl / toMl(1, 'cup');
  return side.doses.flatMap(({ materialId, name, amount, unit }): SideDose[] => {
    const material = shop.materials.find(({ id }) => id === materialId);
    if (material && material.kind !== 'colourant') return [];
    const optics = material?.optics ?? null;
    const colourant = {
      id: materialId,
      swatch: optics && { optics, dosePerCup: optics.dosePerCup, isOnCard: optics.isOnCard },
      glowsOrChanges: material?.glowsOrChanges ?? false,
      strength: strengths.get(materialId) ?? 1,
    };
    const steps = material ? dosedSteps({ amount, unit }, material) : null;
    return [{ colourant, name, dosePerCup: steps === null ? null : steps / cups }];
  });
}

/** The plastisol of a side as its own bare bait showed it; clear until it did. */
export function baseOf({ materials }: ColourShop, side: MixSide): Optics {
  return materials.find(({ id }) => id === side.plastisolId)?.optics ?? clearOptics;
}

/** The side of a mix that a spot of a bait is; null: the line, or a side that the mix has not. */
export function sideOfPart(mix: Mix, part: PhotoReading['part']): MixSide | null {
  const role = mix.sides.length === 1 ? 'only' : part;
  return mix.sides.find((side) => side.role === role || side.role === part) ?? null;
}

/**
 * What the optics say of one side, without a correction; null when a colourant has no swatch, glows
 * or is dosed in a unit that was not weighed, or when old plastic of an unknown colour goes in.
 */
export function plainForecast(
  shop: ColourShop,
  mix: Mix,
  side: MixSide,
  body: Body,
  strengths: ReadonlyMap<string, number> = new Map(),
): Lab | null {
  if (side.hasRemelt) return null;
  const doses = dosesOf(shop, mix, side, strengths);
  const known = doses.flatMap(({ colourant, dosePerCup }) => {
    const { swatch, glowsOrChanges, strength } = colourant;
    if (!swatch || glowsOrChanges || dosePerCup === null) return [];
    return [{ colourant: swatch.optics, dosePerCup, strength }];
  });
  if (known.length < doses.length) return null;
  return forecastLab({ base: baseOf(shop, side), doses: known, body });
}

/** The mix of a photo's bait, with the doses that really went in as far as the log tells; null: none. */
export function mixOfPhoto(shop: ColourShop, photo: Photo): Mix | null {
  const mix = shop.mixes.find(({ id }) => id === photo.mixId);
  if (!mix) return null;
  return { ...mix, sides: [...(shop.poured?.get(photo.id) ?? mix.sides)] };
}

/** The baits that may be learnt from, of mixes in one plastisol. */
export function taughtBaits(shop: ColourShop, plastisolId: MixSide['plastisolId']): TaughtBait[] {
  return shop.photos.flatMap((photo) => {
    const mix = mixOfPhoto(shop, photo);
    const { thicknessMm } = photo;
    if (!mix || thicknessMm === null) return [];
    const body = { thicknessMm, backing: paperBacking };
    return photo.readings.flatMap((reading): TaughtBait[] => {
      const side = sideOfPart(mix, reading.part);
      if (reading.fault !== null || !side || side.plastisolId !== plastisolId) return [];
      // What is unknown in it would be taken for the strength of what is known.
      if (side.hasRemelt) return [];
      return [{ photo, reading, mix, side, body }];
    });
  });
}

/** Strength of every colourant as the photos of mixes in one plastisol teach it. */
export function learntStrengths(
  shop: ColourShop,
  baits: readonly TaughtBait[],
): Map<string, number> {
  const photographed = baits.flatMap(({ reading, mix, side, body }): PhotographedMix[] => {
    const doses = dosesOf(shop, mix, side);
    const known = doses.flatMap(({ colourant: { id, swatch, glowsOrChanges }, dosePerCup }) =>
      swatch && !glowsOrChanges && dosePerCup !== null && dosePerCup > 0
        ? [{ id, colourant: swatch.optics, dosePerCup }]
        : [],
    );
    if (known.length < doses.length) return [];
    return [{ base: baseOf(shop, side), doses: known, body, photo: reading.lab }];
  });
  return strengthsFromPhotos(photographed);
}
