import type { Lab } from '#calc/colour.ts';
import { type ColourShop, paperBacking, plainForecast } from '#calc/shop-colours.ts';
import { taughtFor } from '#calc/shop-forecast.ts';
import { mapped } from '#calc/triple.ts';
import type { Mix, MixSide } from '#model/mix.ts';
import type { PhotoReading } from '#model/photo.ts';
import { type Chance, normal } from '../tests/hands/seeded.ts';
import { materials } from './materials.ts';
import { truths, usual } from './truths.ts';

/** Every bait on a picture is so thick where it is read. */
export const baitMm = 12;
const body = { thicknessMm: baitMm, backing: paperBacking };

const { key, times } = truths.colourant;
/** What the colourants truly do, against what their cards say. */
const trueStrengths = new Map<string, number>([[materials[key].id, times]]);

/** The colour that a side of a mix truly has between its flakes, CIELAB (D65). */
export function trueLab(shop: ColourShop, mix: Mix, side: MixSide): Lab {
  const lab = plainForecast(shop, mix, side, body, trueStrengths);
  if (!lab) throw new Error(`A colourant of ${side.name} has no card.`);
  return lab;
}

/**
 * What is read off a picture of each side of a mix, with the noise of a camera, beside what the app
 * forecasts of it from the pictures before, which are those of `shop`.
 */
export function readingsOf(shop: ColourShop, mix: Mix, chance: Chance): PhotoReading[] {
  return mix.sides.flatMap((side): PhotoReading[] => {
    const { role } = side;
    if (role === 'core' || role === 'tail') return [];
    const { strengths } = taughtFor(shop, side.plastisolId);
    const forecast = plainForecast(shop, mix, side, body, strengths);
    const seen = mapped(
      trueLab(shop, mix, side),
      (value) => value + usual.cameraLab * normal(chance),
    );
    return [{ part: role, lab: short(seen), fault: null, forecast: forecast && short(forecast) }];
  });
}

/** A hundredth is more than can be seen, and the file stays small. */
function short(lab: Lab): Lab {
  return mapped(lab, (value) => Math.round(value * 100) / 100);
}
