import * as z from 'zod/mini';
import { materialFacts, StockUnit } from '#model/material.ts';
import { DoseUnit, MixRole } from '#model/mix.ts';
import { Name, Swatch, VolumeMl } from '#model/schemas.ts';

/** What a material is to somebody who has another shop. */
const SharedMaterial = z.strictObject({
  name: Name,
  kind: materialFacts.kind,
  flake: materialFacts.flake,
  swatch: materialFacts.swatch,
  /** What its stock is counted in, so a powder stays one; absent in older parcels: the usual one. */
  unit: z.optional(StockUnit),
  /** Absent: it does not, or an older parcel does not tell. */
  glowsOrChanges: z.optional(z.boolean()),
});
export type SharedMaterial = z.infer<typeof SharedMaterial>;

/** One mix on its way from one shop to another: no ids, no dates, no device, no person. */
export const SharedMix = z.strictObject({
  made: z.literal('mix'),
  /** The shape of this file; a newer one is refused. */
  form: z.literal(1),
  name: Name,
  baseMl: VolumeMl,
  materials: z.array(SharedMaterial).check(z.maxLength(84, 'At most 84 materials.')),
  sides: z
    .array(
      z.strictObject({
        role: MixRole,
        name: Name,
        swatch: Swatch,
        /** Place in `materials`; null: not told. */
        plastisol: z.nullable(z.int().check(z.gte(0))),
        /** Old plastic goes in, too; absent: none, or an older parcel does not tell. */
        hasRemelt: z.optional(z.boolean()),
        doses: z
          .array(
            z.strictObject({
              material: z.int().check(z.gte(0)),
              amount: z.number().check(z.gt(0), z.lte(100_000)),
              unit: DoseUnit,
              isPinned: z.boolean(),
            }),
          )
          .check(z.maxLength(20, 'At most 20 doses.')),
      }),
    )
    .check(z.minLength(1), z.maxLength(4)),
});
export type SharedMix = z.infer<typeof SharedMix>;
