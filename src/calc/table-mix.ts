import { type MixBody, type PouredSide, scaledMix } from '#calc/mix.ts';
import type { Dose, MixSide } from '#model/mix.ts';

/** What went into one pot: a side with its doses, and the plastisol they went into, mL. */
export interface MixedSide {
  side: MixSide;
  volumeMl: number;
}

/** Plastisol without a colour. */
export const clearSwatch = '#d8d2c2';

/** Sides that were measured into pots of their own as one mix, written for the largest pot. */
export function oneMix(mixed: readonly MixedSide[]): MixBody {
  const baseMl = Math.max(...mixed.map(({ volumeMl }) => volumeMl));
  return { baseMl, sides: mixed.map(({ side, volumeMl }) => scaledSide(side, volumeMl, baseMl)) };
}

/** The same mix with these sides in the place of its own. */
export function withSides(mix: MixBody, mixed: readonly MixedSide[]): MixBody {
  const next = oneMix(mixed);
  const { sides } = scaledMix(mix, next.baseMl);
  const roles = new Set(sides.map(({ role }) => role));
  const kept = sides.map((side) => next.sides.find(({ role }) => role === side.role) ?? side);
  return {
    baseMl: next.baseMl,
    sides: [...kept, ...next.sides.filter(({ role }) => !roles.has(role))],
  };
}

/**
 * A side with the doses that were given instead, in the plastisol of `poured`. A dose that was left as
 * it was poured stays as exact as it was written, so that rounding alone changes no mix.
 */
export function changedSide(
  { baseMl, side }: { baseMl: number; side: MixSide },
  poured: PouredSide,
  given: readonly Dose[],
): MixSide {
  const exact = scaledSide(side, baseMl, poured.baseMl);
  const doses = given.map((dose) => {
    const at = poured.lines.findIndex(
      (line) =>
        line.dose.materialId === dose.materialId &&
        line.dose.unit === dose.unit &&
        line.amount === dose.amount,
    );
    return exact.doses[at] ?? dose;
  });
  return { ...exact, doses };
}

function scaledSide(side: MixSide, fromMl: number, toMl: number): MixSide {
  return scaledMix({ baseMl: fromMl, sides: [side] }, toMl).sides[0] ?? side;
}
