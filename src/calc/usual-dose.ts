import type { MixBody } from '#calc/mix.ts';
import type { Dose } from '#model/mix.ts';

/** A dose far from what the person usually takes of a material. */
export interface OddDose {
  name: string;
  /** How many times the usual dose; below 1: it is that part of it. */
  times: number;
}

/** From so many times the usual dose on, up or down, it is said in one line (a working rule). */
const oddFrom = 5;

/**
 * The dose that is farthest from the person's usual one, five times or more, or a fifth or less:
 * the median of that material per volume over `others`. Null: none is, or nothing is known.
 */
export function oddDose(mix: MixBody, others: readonly MixBody[]): OddDose | null {
  let odd: OddDose | null = null;
  for (const dose of mix.sides.flatMap(({ doses }) => doses)) {
    const usual = median(others.flatMap((other) => perMl(other, dose)));
    if (usual === null) continue;
    const times = dose.amount / mix.baseMl / usual;
    const far = Math.abs(Math.log(times));
    if (far < Math.log(oddFrom) - 1e-9) continue;
    if (odd === null || far > Math.abs(Math.log(odd.times))) odd = { name: dose.name, times };
  }
  return odd;
}

/** What a mix takes of the same material in the same unit, per mL. */
function perMl(mix: MixBody, { materialId, unit }: Dose): number[] {
  return mix.sides.flatMap(({ doses }) =>
    doses
      .filter((dose) => dose.materialId === materialId && dose.unit === unit)
      .map(({ amount }) => amount / mix.baseMl),
  );
}

function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = values.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const [low = 0, high = 0] = [sorted[Math.ceil(sorted.length / 2) - 1], sorted[middle]];
  return (low + high) / 2;
}
