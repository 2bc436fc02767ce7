import { checkedLab, deltaE2000, type Lab } from '#calc/colour.ts';
import { wholeFrom } from '#calc/counts.ts';
import {
  type Body,
  clearOptics,
  type Dose,
  type Mix,
  mixOptics,
  type Optics,
  opticsLab,
  withMore,
} from '#calc/optics.ts';
import type { PhotoFault } from '#calc/photo-card.ts';
import { finite, notNegative, positive } from '#calc/range.ts';
import { mapped } from '#calc/triple.ts';

/** What is believed before a photo is seen. */
export interface LearningOptions {
  /** Spread of ln strength around 0; null believes nothing. */
  priorSd?: number | null;
  /** How far off one photo usually is, CIEDE2000. */
  photoDeltaE?: number;
}

/** A mix that was poured and photographed. */
export interface PhotographedMix {
  base: Optics;
  doses: readonly { id: string; colourant: Optics; dosePerCup: number }[];
  body: Body;
  photo: Readonly<Lab>;
  /** A photo with a fault teaches nothing. */
  fault?: PhotoFault | null;
}

/** What was forecast once and what the photo then showed. */
export interface Shown {
  forecast: Readonly<Lab>;
  photo: Readonly<Lab>;
  /** What would be forecast of it today, with what was learnt since; absent: the same. */
  now?: Readonly<Lab>;
}

/** How far the search goes in ln strength either way: from a fifth to 4.5 times the swatch. */
const FURTHEST = 1.5;
const POINTS = 61;

/** A photo further off than this is no better evidence than one just as far. */
const MOST_DELTA_E = 20;

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Strength of dose number `which` that best explains one photo, and how far off the forecast then
 * is. Least (dE/photo)^2 + (ln s/prior)^2, on a grid and then by golden section, as CIEDE2000 has
 * several dips.
 *
 * RangeError for malformed mixes, and for a dose of nothing, which no photo can tell of.
 */
export function strengthFromPhoto(
  mix: Mix,
  photo: Readonly<Lab>,
  which: number,
  options: LearningOptions = {},
): { strength: number; deltaE: number } {
  const dose = mix.doses[wholeFrom(0, 'which', which)];
  if (dose === undefined) throw new RangeError(`There is no dose ${which}.`);
  positive('dosePerCup', dose.dosePerCup);
  const offBy = missOf(mix, photo, (_, at) => at === which);
  const strength = likeliest([offBy], options);
  return { strength, deltaE: offBy(strength) };
}

/**
 * Strength of every colourant by id from all photos without a fault: twice over the colourants, each
 * alone with the rest held, from `start` (1 unless told). The order of photos and doses is immaterial.
 * RangeError as for `strengthFromPhoto`.
 */
export function strengthsFromPhotos(
  photos: readonly PhotographedMix[],
  options: LearningOptions & { start?: ReadonlyMap<string, number> } = {},
): Map<string, number> {
  const taught = photos.filter(({ fault }) => (fault ?? null) === null);
  const strengths = new Map<string, number>();
  for (const id of taught.flatMap(idsIn).sort()) {
    strengths.set(id, positive('start', options.start?.get(id) ?? 1));
  }
  for (let sweep = 0; sweep < 2; sweep++) {
    for (const id of strengths.keys()) {
      const misses = taught
        .filter((mix) => idsIn(mix).includes(id))
        .map((mix) => missOf(withStrengths(mix, strengths), mix.photo, (dose) => dose.id === id));
      strengths.set(id, likeliest(misses, options));
    }
  }
  return strengths;
}

/**
 * A forecast moved by what the same maker's earlier ones missed, each weighed by how near its
 * forecast lies. With no history nothing moves. RangeError for wild colours or a width of 0.
 */
export function correctedLab(
  forecast: Readonly<Lab>,
  history: readonly Shown[],
  options: { widthLab?: number; priorWeight?: number } = {},
): Lab {
  const width = positive('widthLab', options.widthLab ?? 12);
  let weight = positive('priorWeight', options.priorWeight ?? 1);
  let moved: Lab = [0, 0, 0];
  for (const shown of history) {
    const near = Math.exp(-0.5 * (labDistance(forecast, shown.forecast) / width) ** 2);
    checkedLab('photo', shown.photo);
    moved = mapped(moved, (sum, at) => sum + near * (shown.photo[at] - shown.forecast[at]));
    weight += near;
  }
  return mapped(checkedLab('forecast', forecast), (value, at) => value + moved[at] / weight);
}

/** Straight distance of two colours in CIELAB. RangeError for wild colours. */
export function labDistance(one: Readonly<Lab>, other: Readonly<Lab>): number {
  checkedLab('one', one);
  return Math.hypot(...mapped(checkedLab('other', other), (value, at) => value - one[at]));
}

/** How far the forecast of a mix is from its photo, by the strength of some of its doses. */
function missOf<D extends Dose>(
  mix: { base: Optics; doses: readonly D[]; body: Body },
  photo: Readonly<Lab>,
  isSearched: (dose: D, at: number) => boolean,
): (strength: number) => number {
  const isRest = (dose: D, at: number) => !isSearched(dose, at);
  const rest = mixOptics(mix.base, mix.doses.filter(isRest));
  const own = mixOptics(
    clearOptics,
    mix.doses.filter(isSearched).map((dose) => ({ ...dose, strength: 1 })),
  );
  return (strength) => deltaE2000(opticsLab(withMore(rest, own, strength), mix.body), photo);
}

function likeliest(
  misses: readonly ((strength: number) => number)[],
  options: LearningOptions,
): number {
  const { priorSd = 0.35 } = options;
  const photoDeltaE = positive('photoDeltaE', options.photoDeltaE ?? 5);
  if (priorSd !== null) positive('priorSd', priorSd);
  return Math.exp(
    lowest((ln) => {
      let sum = priorSd === null ? 0 : (ln / priorSd) ** 2;
      for (const offBy of misses) {
        sum += (Math.min(offBy(Math.exp(ln)), MOST_DELTA_E) / photoDeltaE) ** 2;
      }
      return finite('cost', sum);
    }),
  );
}

/** Where a cost is least: the grid from the middle outwards, so that what tells nothing stays put. */
function lowest(cost: (ln: number) => number): number {
  const step = (2 * FURTHEST) / (POINTS - 1);
  let best = 0;
  let least = cost(0);
  for (let out = 1; out <= (POINTS - 1) / 2; out++) {
    for (const ln of [out * step, -out * step]) {
      const here = cost(ln);
      if (here < least) [best, least] = [ln, here];
    }
  }
  const fine = goldenSection(
    cost,
    Math.max(best - step, -FURTHEST),
    Math.min(best + step, FURTHEST),
  );
  return cost(fine) < least ? fine : best;
}

function goldenSection(cost: (ln: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  let [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [atLeft, atRight] = [cost(left), cost(right)];
  for (let step = 0; step < 36; step++) {
    if (atLeft < atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = cost(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = cost(right);
    }
  }
  return (low + high) / 2;
}

function withStrengths(mix: PhotographedMix, strengths: ReadonlyMap<string, number>) {
  const doses = mix.doses.map((dose) => ({ ...dose, strength: strengths.get(dose.id) ?? 1 }));
  return { ...mix, doses };
}

/** The colourants of which there is some in the mix. */
function idsIn(mix: PhotographedMix): string[] {
  return mix.doses
    .filter(({ dosePerCup }) => notNegative('dosePerCup', dosePerCup) > 0)
    .map(({ id }) => id);
}
