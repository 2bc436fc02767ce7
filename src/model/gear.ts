import * as z from 'zod/mini';
import { headParts, Name, RecordId, Swatch, VolumeMl } from '#model/schemas.ts';

export const InjectorId = RecordId.brand<'InjectorId'>();
export type InjectorId = z.infer<typeof InjectorId>;

export const injectorFacts = {
  name: Name,
  capacityMl: VolumeMl,
  boreMm: z.nullable(z.number().check(z.gte(3, 'At least 3 mm.'), z.lte(150, 'At most 150 mm.'))),
  /** Two barrels side by side, for two colours at once. */
  isTwin: z.boolean(),
};

/** An injector of the shop. */
export const Injector = z.looseObject({ id: InjectorId, ...headParts, ...injectorFacts });
export type Injector = z.infer<typeof Injector>;

/** An injector as it was when it was put on the table. */
export const FrozenInjector = z.looseObject({ injectorId: InjectorId, ...injectorFacts });
export type FrozenInjector = z.infer<typeof FrozenInjector>;

export const ColourwayId = RecordId.brand<'ColourwayId'>();
export type ColourwayId = z.infer<typeof ColourwayId>;

/** One colour of a bait: how it is called and roughly what it looks like. */
export const Side = z.object({ name: Name, swatch: Swatch });
export type Side = z.infer<typeof Side>;

export const colourwayFacts = {
  name: Name,
  /** One colour, or two for a laminate: side A, then side B. */
  sides: z.array(Side).check(z.minLength(1, 'A colourway has a colour.'), z.maxLength(2)),
};

/** A colourway of the shop. */
export const Colourway = z.looseObject({ id: ColourwayId, ...headParts, ...colourwayFacts });
export type Colourway = z.infer<typeof Colourway>;
