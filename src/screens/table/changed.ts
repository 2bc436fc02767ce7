import type { MixBody } from '#calc/mix.ts';
import { isSameMix } from '#calc/mix-difference.ts';
import { changedSide, withSides } from '#calc/table-mix.ts';
import type { Dose, Mix, MixRole } from '#model/mix.ts';
import type { PotPlan } from '#screens/table/PourDoses.tsx';

/** What goes in instead of a side's doses, by its role. */
export type Changes = ReadonlyMap<MixRole, Dose[]>;

/** The mix that is poured with these changes; null: it is the mix as it is written. */
export function changedBy(mix: Mix, plans: readonly PotPlan[], changes: Changes): MixBody | null {
  const mixed = plans.flatMap(({ side, poured }) => {
    const given = changes.get(side.role);
    if (!given) return [];
    return [{ side: changedSide({ ...mix, side }, poured, given), volumeMl: poured.baseMl }];
  });
  if (mixed.length === 0) return null;
  const body = withSides(mix, mixed);
  return isSameMix(mix, body) ? null : body;
}
