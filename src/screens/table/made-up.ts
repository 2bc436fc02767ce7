import { frozenMix } from '#calc/pot-mix.ts';
import type { Table } from '#calc/table.ts';
import { clearSwatch, oneMix } from '#calc/table-mix.ts';
import type { Pot } from '#calc/table-pots.ts';
import { mixedOf } from '#calc/told-mixes.ts';
import type { SaidOf } from '#model/entry.ts';
import type { Material, MaterialId } from '#model/material.ts';
import type { Dose, MixId } from '#model/mix.ts';
import type { Place } from '#screens/table/mix.ts';

/** The pot that a side is made up beside: the other side, if it has no colour of its own; null: none. */
export function besideOf({ potsInUse }: Table, place: Place): Pot | null {
  if (place === 'only') return null;
  const slot = place === 'A' ? 1 : 0;
  const pot = potsInUse.find((one) => one.slot === slot);
  return pot?.mix && pot.colourwayId === null ? pot : null;
}

/** What was given into a pot that is made up on the spot. */
export interface Given {
  doses: readonly Dose[];
  plastisolId: MaterialId | null;
}

/**
 * The pot of a mix made up on the spot, and that mix; beside a pot that was made up as the other side
 * it is one mix of two sides. Null: nothing is known of what went in.
 */
export function madeUp(
  said: SaidOf<'pot-mixed'>,
  { doses, plastisolId }: Given,
  { id, beside, swatches }: { id: MixId; beside: Pot | null; swatches: Swatches },
) {
  const [one] = said.pots;
  if (!one || (doses.length === 0 && plastisolId === null && !beside)) return null;
  const role = beside ? (one.slot === 1 ? 'b' : 'a') : 'only';
  const pot = {
    ...one,
    swatch: mostSeen(doses, swatches),
    mix: frozenMix({ id, version: 1 }, { role, plastisolId }, doses),
    ...(beside ? { besidePotId: beside.id } : {}),
  };
  const other = beside && { ...beside, volumeMl: beside.mixedMl };
  return { said: { ...said, pots: [pot] }, body: oneMix(mixedOf(pot, other)) };
}

type Swatches = ReadonlyMap<string, string>;

/** How the materials look, as far as that is told. */
export function swatchesOf(materials: readonly Material[] | undefined): Swatches {
  return new Map((materials ?? []).flatMap(({ id, swatch }) => (swatch ? [[id, swatch]] : [])));
}

/** What is made up looks like what there is most of. */
function mostSeen(doses: readonly Dose[], swatches: Swatches): string {
  const seen = doses.filter(({ materialId }) => swatches.has(materialId));
  const most = seen.toSorted((a, b) => b.amount - a.amount)[0];
  return (most && swatches.get(most.materialId)) ?? clearSwatch;
}
