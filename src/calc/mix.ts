import { geometricRound, roundedDoses, type WantedDose } from '#calc/dose.ts';
import { positive } from '#calc/range.ts';
import type { Dose, DoseUnit, Mix, MixSide } from '#model/mix.ts';

/** What a version of a mix is made of. */
export type MixBody = Pick<Mix, 'baseMl' | 'sides'>;

/** One line as it goes into the cup. */
export interface PouredLine {
  dose: Dose;
  /** What the mix asks for in the volume that was chosen, in the dose's unit. */
  wanted: number;
  /** What a hand can do: whole drops, eighths of a teaspoon. */
  amount: number;
  /** By which share it is too much (above 0) or too little in the base as it is to be poured. */
  errorShare: number;
}

/** One side, ready to be measured out. */
export interface PouredSide {
  lines: PouredLine[];
  /** The plastisol to take: what was chosen or up to a tenth more, so that the drops come out. */
  baseMl: number;
  /** Largest error of a line that grows with the base, as a share; 0: all come out. */
  worstShare: number;
}

/** What a hand can do of each unit; null: it is weighed or drawn up, and rounding is no question. */
const steps: Record<DoseUnit, number | null> = { drop: 1, tsp: 0.125, mL: null, g: null };
/** Past so many steps rounding moves a dose by less than a thousandth. */
const countedSteps = 500;
/** Above this error a pot is too small for its doses (methods-colour-plan section 4). */
export const mostErrorShare = 0.15;

/** The same mix for another volume, exactly; pinned doses stay. RangeError unless both are above 0. */
export function scaledMix(mix: MixBody, toMl: number): MixBody {
  const factor = positive('toMl', toMl) / positive('baseMl', mix.baseMl);
  const scaled = (dose: Dose) => (dose.isPinned ? dose : { ...dose, amount: dose.amount * factor });
  return {
    baseMl: toMl,
    sides: mix.sides.map((side) => ({ ...side, doses: side.doses.map(scaled) })),
  };
}

/**
 * A side of a mix for `baseMl`, in doses that a hand can measure: the base moves up by at most a
 * tenth, so that the worst error is the least there can be.
 */
export function pouredSide(side: MixSide, baseMl: number): PouredSide {
  const counted = side.doses.flatMap((dose) => countedOf(dose) ?? []);
  const rounded =
    counted.length > 0
      ? roundedDoses(counted, { baseMl })
      : { counts: [], scale: 1, worstRatio: 0 };
  const { scale } = rounded;
  const counts = [...rounded.counts];
  const lines = side.doses.map((dose): PouredLine => {
    const step = steps[dose.unit];
    const asked = dose.isPinned ? dose.amount : dose.amount * scale;
    const count = countedOf(dose) ? (counts.shift() ?? 1) : geometricStep(asked, step);
    const amount = step === null ? weighed(asked) : count * step;
    return { dose, wanted: dose.amount, amount, errorShare: amount / asked - 1 };
  });
  return { lines, baseMl: baseMl * scale, worstShare: rounded.worstRatio };
}

/**
 * The doses of a side for a volume that is told already: each is rounded to what a hand can measure,
 * and the volume stays. RangeError unless both volumes are above 0.
 */
export function dosesFor(baseMl: number, side: MixSide, volumeMl: number): Dose[] {
  const [scaled = side] = scaledMix({ baseMl, sides: [side] }, volumeMl).sides;
  return scaled.doses.map((dose) => {
    const step = steps[dose.unit];
    const amount = step === null ? weighed(dose.amount) : geometricStep(dose.amount, step) * step;
    return { ...dose, amount: Math.min(amount, 100_000) };
  });
}

/** The doses as they are frozen into the log. */
export function pouredDoses(side: PouredSide): Dose[] {
  return side.lines.map(({ dose, amount }) => ({ ...dose, amount: Math.min(amount, 100_000) }));
}

/**
 * The smallest of the volumes `stepMl` apart from `mix.baseMl` up, in which every side can be
 * measured out with at most 15 % error; null: none up to 16 steps more.
 */
export function largeEnoughMl(mix: MixBody, stepMl: number): number | null {
  for (let step = 0; step <= 16; step++) {
    const tried = scaledMix(mix, mix.baseMl + step * stepMl);
    const sides = tried.sides.map((side) => pouredSide(side, tried.baseMl));
    if (sides.every(({ worstShare }) => worstShare <= mostErrorShare)) return tried.baseMl;
  }
  return null;
}

/** The dose as steps to be rounded together with the others; null: it is pinned, weighed or many. */
function countedOf(dose: Dose): WantedDose | null {
  const step = steps[dose.unit];
  if (step === null || dose.isPinned || dose.amount / step > countedSteps) return null;
  return { amount: dose.amount, step };
}

/** As a scale or a syringe shows it, never nothing. */
function weighed(amount: number): number {
  return Math.max(0.01, Math.round(amount * 100) / 100);
}

function geometricStep(amount: number, step: number | null): number {
  return step === null ? amount : geometricRound(amount / step);
}
