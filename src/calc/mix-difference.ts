import { type MixBody, scaledMix } from '#calc/mix.ts';
import type { Dose, DoseUnit, MixRole, MixSide } from '#model/mix.ts';

/** What one version has otherwise than the one before, both for the newer one's volume. */
export interface DoseChange {
  role: MixRole;
  name: string;
  unit: DoseUnit;
  /** Null: it was not in it, or is not any more. */
  before: number | null;
  after: number | null;
}

/** Doses this near to each other are the same. */
const same = 1e-6;

/** Every dose that was added, left out or changed, in the order of the newer version. */
export function mixDifference(before: MixBody, after: MixBody): DoseChange[] {
  const old = scaledMix(before, after.baseMl);
  const roles = [...new Set([...after.sides, ...old.sides].map(({ role }) => role))];
  return roles.flatMap((role) => {
    const was = amounts(old.sides.find((side) => side.role === role));
    const is = amounts(after.sides.find((side) => side.role === role));
    return [...new Set([...is.keys(), ...was.keys()])].flatMap((key): DoseChange[] => {
      const [from, to] = [was.get(key), is.get(key)];
      const dose = to ?? from;
      if (!dose || (from && to && isNear(from.amount, to.amount))) return [];
      const { name, unit } = dose;
      return [{ role, name, unit, before: from?.amount ?? null, after: to?.amount ?? null }];
    });
  });
}

/** True when two mixes are poured alike, whatever volume each was written for. */
export function isSameMix(a: MixBody, b: MixBody): boolean {
  const plain = ({ sides }: MixBody) =>
    JSON.stringify(
      sides.map(({ role, plastisolId, hasRemelt, doses }) => [
        role,
        plastisolId,
        hasRemelt === true,
        doses.map(({ materialId, unit, isPinned }) => [materialId, unit, isPinned]),
      ]),
    );
  return plain(a) === plain(b) && mixDifference(a, b).length === 0;
}

/** A side's doses by material and unit; the same one twice is added up. */
function amounts(side: MixSide | undefined): Map<string, Dose> {
  const found = new Map<string, Dose>();
  for (const dose of side?.doses ?? []) {
    const key = `${dose.materialId} ${dose.unit}`;
    const twin = found.get(key);
    found.set(key, twin ? { ...dose, amount: twin.amount + dose.amount } : dose);
  }
  return found;
}

function isNear(a: number, b: number): boolean {
  return Math.abs(a - b) <= same * Math.max(a, b);
}
