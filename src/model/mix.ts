import * as z from 'zod/mini';
import { ColourwayId } from '#model/gear.ts';
import { MaterialId } from '#model/material.ts';
import { headParts, Name, RecordId, Swatch, VolumeMl, Words } from '#model/schemas.ts';

export const MixId = RecordId.brand<'MixId'>();
export type MixId = z.infer<typeof MixId>;

/** What a dose is measured with. Drops and eighths of a teaspoon are whole at the table. */
export const DoseUnit = z.enum(['drop', 'tsp', 'mL', 'g']);
export type DoseUnit = z.infer<typeof DoseUnit>;

/** So much of one material. The name is kept, so that an old mix reads without its material. */
export const Dose = z.object({
  materialId: MaterialId,
  name: Name,
  amount: z.number().check(z.gt(0, 'Above 0.'), z.lte(100_000, 'At most 100,000.')),
  unit: DoseUnit,
  /** Does not grow with the volume. */
  isPinned: z.boolean(),
});
export type Dose = z.infer<typeof Dose>;

export const MixRole = z.enum(['only', 'a', 'b', 'core', 'tail']);
export type MixRole = z.infer<typeof MixRole>;

/** What goes into one pot. */
export const MixSide = z.object({
  role: MixRole,
  name: Name,
  swatch: Swatch,
  /** The plastisol it is mixed from; null: not told, no stock moves for it. */
  plastisolId: z.nullable(MaterialId),
  /** Old plastic of no measured colour goes in, too: no forecast covers that part. Absent: none. */
  hasRemelt: z.optional(z.boolean()),
  doses: z.array(Dose).check(z.maxLength(20, 'At most 20 doses.')),
});
export type MixSide = z.infer<typeof MixSide>;

/** What really went into a pot: a side of one version of a mix, frozen when it was poured. */
export const PouredMix = z.object({
  mixId: MixId,
  version: z.int().check(z.gte(1), z.lte(10_000)),
  role: MixRole,
  plastisolId: z.nullable(MaterialId),
  /** Whole drops and eighths of spoons, as they went in. */
  doses: z.array(Dose).check(z.maxLength(20, 'At most 20 doses.')),
});
export type PouredMix = z.infer<typeof PouredMix>;

/**
 * One version of a mix. Doses, base and sides of a poured version are written once; a change is the
 * next version. `nextTime` may change, and a nameless mix gets its colour, and its place among the
 * versions of that colour, later.
 */
export const mixFacts = {
  /** Null: made up at the table and not named yet. */
  colourwayId: z.nullable(ColourwayId),
  /** 1 is the first; `version` and `colourwayId` together are how a person calls it: "Peat brown 4". */
  version: z.int().check(z.gte(1), z.lte(10_000)),
  /** The volume that the doses are for. */
  baseMl: VolumeMl,
  sides: z.array(MixSide).check(z.minLength(1), z.maxLength(4)),
  /**
   * Mixes that were made up alone at the table first, and that the name found to be sides of this one: what
   * is written of them later is of this one. Absent: none.
   */
  parts: z.optional(z.array(MixId).check(z.maxLength(40))),
  /** What to do otherwise next time; goes into the draft of the next version. */
  nextTime: Words,
};

export const Mix = z.looseObject({ id: MixId, ...headParts, ...mixFacts });
export type Mix = z.infer<typeof Mix>;
