import { farOff } from '#calc/far-off.ts';
import { dosesFor, type MixBody } from '#calc/mix.ts';
import type { Dose } from '#model/mix.ts';

/** A dose far from what the person usually takes of a material. */
export interface OddDose {
  name: string;
  /** How many times the usual dose; below 1: it is that part of it. */
  times: number;
}

/**
 * The dose that is farthest from the person's usual one, if it is far off:
 * the median of that material per volume over `others`. Null: none is, or nothing is known.
 */
export function oddDose(mix: MixBody, others: readonly MixBody[]): OddDose | null {
  let odd: OddDose | null = null;
  for (const dose of mix.sides.flatMap(({ doses }) => doses)) {
    const own = dose.amount / mix.baseMl;
    const usual = farOff(
      own,
      others.flatMap((other) => perMl(other, dose)),
    );
    if (usual === null) continue;
    const times = own / usual;
    const isFarthest = Math.abs(Math.log(times)) > Math.abs(Math.log(odd?.times ?? 1));
    if (isFarthest) odd = { name: dose.name, times };
  }
  return odd;
}

/**
 * What the newest of `mixes`, oldest first, that has the same material in the same unit takes of it in
 * so much plastisol, as a hand can measure it; null: none has it.
 */
export function lastDose(
  dose: Pick<Dose, 'materialId' | 'unit'>,
  mixes: readonly MixBody[],
  volumeMl: number,
): number | null {
  for (const { baseMl, sides } of mixes.toReversed()) {
    for (const side of sides) {
      const own = side.doses.filter(
        ({ materialId, unit }) => materialId === dose.materialId && unit === dose.unit,
      );
      const [first] = own.length > 0 ? dosesFor(baseMl, { ...side, doses: own }, volumeMl) : [];
      if (first) return first.amount;
    }
  }
  return null;
}

/** What a mix takes of the same material in the same unit, per mL. */
function perMl(mix: MixBody, { materialId, unit }: Dose): number[] {
  return mix.sides.flatMap(({ doses }) =>
    doses
      .filter((dose) => dose.materialId === materialId && dose.unit === unit)
      .map(({ amount }) => amount / mix.baseMl),
  );
}
