import type { Lab } from '#calc/colour.ts';
import { meetingLineLab } from '#calc/colour-forecast.ts';
import { type FlakeLook, flakeLook } from '#calc/flake-look.ts';
import { type Guess, guessOf } from '#calc/guess.ts';
import { correctedLab, type Shown } from '#calc/learning.ts';
import { type Body, mixOptics, type Optics } from '#calc/optics.ts';
import {
  baseOf,
  type ColourShop,
  dosesOf,
  learntStrengths,
  plainForecast,
  taughtBaits,
} from '#calc/shop-colours.ts';
import type { Mix, MixSide } from '#model/mix.ts';

/** A guess at a mix of the shop, or why there is none. */
export type ShopGuess = Guess | { kind: 'no guess'; why: 'not weighed'; colourantIds: string[] };

/** What the own photos taught of the mixes in one plastisol. */
export interface Taught {
  strengths: ReadonlyMap<string, number>;
  /** Each bait that was read beside its forecast of the day, and of today. */
  history: readonly Shown[];
}

/** What the photos of a shop teach for the mixes in one plastisol. */
export function taughtFor(shop: ColourShop, plastisolId: MixSide['plastisolId']): Taught {
  const baits = taughtBaits(shop, plastisolId);
  const strengths = learntStrengths(shop, baits);
  const history = baits.flatMap(({ reading, mix, side, body }): Shown[] => {
    const now = plainForecast(shop, mix, side, body, strengths);
    if (reading.forecast === null || now === null) return [];
    return [{ forecast: reading.forecast, photo: reading.lab, now }];
  });
  return { strengths, history };
}

/** The guess at one side of a mix. RangeError for a body without thickness. */
export function guessOfSide(
  shop: ColourShop,
  taught: Taught,
  { mix, side, body }: { mix: Mix; side: MixSide; body: Body },
): ShopGuess {
  const doses = dosesOf(shop, mix, side, taught.strengths);
  const base = baseOf(shop, side);
  // Without a swatch there is no unit to weigh for: that is said first.
  const unweighed = doses.filter(({ colourant, dosePerCup }) => colourant.swatch && !dosePerCup);
  const bare = doses.some(({ colourant }) => colourant.swatch === null);
  if (unweighed.length > 0 && !bare) {
    const colourantIds = unweighed.map(({ colourant }) => colourant.id);
    return { kind: 'no guess', why: 'not weighed', colourantIds };
  }
  const planned = doses.map(({ colourant, dosePerCup }) => ({
    colourant,
    dosePerCup: dosePerCup ?? 1,
  }));
  return guessOf(
    { base, doses: planned, body, hasUnknownRemelt: side.hasRemelt === true },
    taught.history,
  );
}

/** A guess with the flake of its side in it, as far as that is known; null where there is no guess. */
export function flakedGuess(
  shop: ColourShop,
  taught: Taught,
  { mix, side, body }: { mix: Mix; side: MixSide; body: Body },
  guess: ShopGuess,
): FlakeLook | null {
  const optics = opticsOf(shop, mix, side, taught);
  if (guess.kind !== 'guess' || !optics) return null;
  const flakes = side.doses.flatMap((dose) => {
    const material = shop.materials.find(({ id }) => id === dose.materialId);
    return material?.kind === 'flake' ? [{ dose, material }] : [];
  });
  return flakeLook(guess.lab, flakes, { optics, baseMl: mix.baseMl, ...body });
}

/** Shares of side B that the meeting line is shown at. */
export const lineShares = [0, 0.25, 0.5, 0.75, 1] as const;

/** Colours from side A over the meeting line to side B, moved by the photos as each side is. */
export function meetingLine(
  shop: ColourShop,
  mix: Mix,
  sides: readonly { side: MixSide; taught: Taught }[],
  body: Body,
): Lab[] {
  const [one, other] = sides.map(({ side, taught }) => opticsOf(shop, mix, side, taught));
  if (!one || !other) return [];
  const history = todays([...new Set(sides.flatMap(({ taught }) => taught.history))]);
  return lineShares.map((share) => correctedLab(meetingLineLab(one, other, share, body), history));
}

/** Each photo beside what would be forecast of it today. */
export function todays(history: readonly Shown[]): Shown[] {
  return history.map(({ forecast, photo, now }) => ({ forecast: now ?? forecast, photo }));
}

function opticsOf(shop: ColourShop, mix: Mix, side: MixSide, { strengths }: Taught): Optics | null {
  if (side.hasRemelt) return null;
  const doses = dosesOf(shop, mix, side, strengths);
  const known = doses.flatMap(({ colourant, dosePerCup }) =>
    colourant.swatch && dosePerCup !== null
      ? [{ colourant: colourant.swatch.optics, dosePerCup, strength: colourant.strength }]
      : [],
  );
  return known.length < doses.length ? null : mixOptics(baseOf(shop, side), known);
}
