import { deltaE2000, type Lab } from '#calc/colour.ts';
import { type DoubtWord, forecastDoubt, forecastLab } from '#calc/colour-forecast.ts';
import { correctedLab, labDistance, type Shown } from '#calc/learning.ts';
import type { Body, Optics } from '#calc/optics.ts';
import { notNegative, positive } from '#calc/range.ts';

/** What the shop knows of a colourant. */
export interface KnownColourant {
  id: string;
  /** Its optics and the dose it was photographed at; null when it has no swatch. */
  swatch: { optics: Optics; dosePerCup: number; isOnCard: boolean } | null;
  /** Fluorescent, or changing with heat or light: no layer theory covers it. */
  glowsOrChanges: boolean;
  /** What photos taught of it; 1 before any did. */
  strength: number;
}

/** A mix somebody thinks of. */
export interface PlannedMix {
  base: Optics;
  doses: readonly { colourant: KnownColourant; dosePerCup: number }[];
  body: Body;
  /** Old plastic of a colour that has no swatch of its own goes in. */
  hasUnknownRemelt: boolean;
}

/** A guess to show, or why there is none. */
export type Guess =
  | {
      kind: 'guess';
      lab: Lab;
      typicalDeltaE: number;
      word: Exclude<DoubtWord, 'no guess'>;
      /** Own photos of mixes like this that it leans on. */
      photos: number;
    }
  | { kind: 'no guess'; why: 'no swatch' | 'glows or changes'; colourantIds: string[] }
  | { kind: 'no guess'; why: 'remelt without a swatch' }
  | { kind: 'no guess'; why: 'far from the swatch'; colourantIds: string[]; typicalDeltaE: number }
  | { kind: 'no guess'; why: 'unusual body' | 'too unsure'; typicalDeltaE: number };

/** Mixes whose forecasts lie no further apart than this are like each other, CIELAB. */
const ALIKE_LAB = 12;

/** A swatch speaks for doses up to so many times more or less. */
const FURTHEST_DOSE = 4;

/** Bodies the method was measured on, mm. */
const THINNEST_MM = 5;
const THICKEST_MM = 15;

/**
 * The guess at a mix, moved by the shop's own photos of mixes like it, or why none is given.
 *
 * `history` is of photos without a fault, each beside the forecast of its day, which is what errors
 * are counted by, and beside that of today, which is what moves the guess: what a strength has learnt
 * from a photo is not counted twice. RangeError for a
 * negative dose, malformed optics or body.
 */
export function guessOf(mix: PlannedMix, history: readonly Shown[]): Guess {
  const used = mix.doses.filter(({ dosePerCup }) => notNegative('dosePerCup', dosePerCup) > 0);
  const colourants = used.map(({ colourant }) => colourant);
  const bare = colourants.filter(({ swatch }) => swatch === null);
  if (bare.length > 0) return { kind: 'no guess', why: 'no swatch', colourantIds: idsOf(bare) };
  const odd = colourants.filter(({ glowsOrChanges }) => glowsOrChanges);
  if (odd.length > 0) {
    return { kind: 'no guess', why: 'glows or changes', colourantIds: idsOf(odd) };
  }
  if (mix.hasUnknownRemelt) return { kind: 'no guess', why: 'remelt without a swatch' };
  const forecast = forecastLab({ ...mix, doses: used.flatMap(doseOf) });
  const today = history.map(({ forecast: then, photo, now }) => ({ forecast: now ?? then, photo }));
  const alike = history.filter(
    (_, at) => labDistance(today[at]?.forecast ?? forecast, forecast) <= ALIKE_LAB,
  );
  const far = used.filter(isFarFromSwatch).map(({ colourant }) => colourant);
  const isUnusual = mix.body.thicknessMm < THINNEST_MM || mix.body.thicknessMm > THICKEST_MM;
  const { typicalDeltaE, word } = forecastDoubt({
    errors: alike.map((shown) => deltaE2000(shown.forecast, shown.photo)),
    allOnCard: colourants.every(({ swatch }) => swatch?.isOnCard === true),
    outside: far.length > 0 || isUnusual,
  });
  if (word !== 'no guess') {
    const lab = correctedLab(forecast, today);
    return { kind: 'guess', lab, typicalDeltaE, word, photos: alike.length };
  }
  if (far.length > 0) {
    return { kind: word, why: 'far from the swatch', colourantIds: idsOf(far), typicalDeltaE };
  }
  return { kind: word, why: isUnusual ? 'unusual body' : 'too unsure', typicalDeltaE };
}

/** Which of the shop's own photos looks most like a colour, or null when there is none. */
export function nearestPhoto(
  lab: Readonly<Lab>,
  photos: readonly Readonly<Lab>[],
): { at: number; deltaE: number } | null {
  let nearest: { at: number; deltaE: number } | null = null;
  for (const [at, photo] of photos.entries()) {
    const deltaE = deltaE2000(lab, photo);
    if (nearest === null || deltaE < nearest.deltaE) nearest = { at, deltaE };
  }
  return nearest;
}

type PlannedDose = PlannedMix['doses'][number];

function doseOf({ colourant, dosePerCup }: PlannedDose) {
  const { swatch, strength } = colourant;
  return swatch === null ? [] : [{ colourant: swatch.optics, dosePerCup, strength }];
}

function isFarFromSwatch({ colourant, dosePerCup }: PlannedDose): boolean {
  if (colourant.swatch === null) return true;
  const times = dosePerCup / positive('swatch.dosePerCup', colourant.swatch.dosePerCup);
  return times > FURTHEST_DOSE || times < 1 / FURTHEST_DOSE;
}

function idsOf(colourants: readonly KnownColourant[]): string[] {
  return colourants.map(({ id }) => id);
}
