import * as z from 'zod/mini';
import { headParts, Instant, Name, RecordId, Swatch } from '#model/schemas.ts';

export const MaterialId = RecordId.brand<'MaterialId'>();
export type MaterialId = z.infer<typeof MaterialId>;

export const materialKinds = [
  'plastisol',
  'softener',
  'hardener',
  'stabiliser',
  'colourant',
  'flake',
  'scent',
  'salt',
  'hook',
  'bag',
  'other',
] as const;
export const MaterialKind = z.enum(materialKinds);
export type MaterialKind = z.infer<typeof MaterialKind>;

/** What a stock is counted in: liquids in mL, flake and salt in g, hooks and bags one by one. */
export const StockUnit = z.enum(['mL', 'g', 'piece']);
export type StockUnit = z.infer<typeof StockUnit>;

/** An amount of stock, in the material's own unit. */
export const Qty = z
  .number()
  .check(z.gte(0, 'Not below 0.'), z.lte(1_000_000, 'More than 1,000,000 cannot be.'));
/** The same, of something that was really moved. */
export const QtyAboveZero = z
  .number()
  .check(z.gt(0, 'Above 0.'), z.lte(1_000_000, 'More than 1,000,000 cannot be.'));
export const Cents = z
  .int()
  .check(z.gte(0, 'Not below 0.'), z.lte(100_000_000, 'More than 1,000,000 cannot be.'));

/** 16 values from 400 to 700 nm in steps of 20, per mm. */
const perMm = z.number().check(z.gte(0), z.lte(1_000));

export const materialFacts = {
  name: Name,
  kind: MaterialKind,
  unit: StockUnit,
  /** How it is bought: so much in a package, for so many cents; null: not told. */
  package: z.nullable(z.object({ qty: QtyAboveZero, cents: Cents })),
  /** At or below this it is on the list of what to buy; null: never. */
  reorderAt: z.nullable(Qty),
  /** One drop of this bottle, mL, counted or weighed by the person; null: the usual drop is taken. */
  dropMl: z.nullable(
    z.number().check(z.gte(0.005, 'At least 0.005 mL.'), z.lte(1, 'At most 1 mL.')),
  ),
  /** A level teaspoon of it, g, as the person weighed it; null: the usual one is taken. */
  teaspoonG: z.nullable(
    z.number().check(z.gte(0.1, 'At least 0.1 g.'), z.lte(20, 'At most 20 g.')),
  ),
  /** What 1 mL of a liquid weighs, g; absent or null: the usual one is taken. */
  densityGPerMl: z.optional(
    z.nullable(z.number().check(z.gte(0.3, 'At least 0.3 g/mL.'), z.lte(5, 'At most 5 g/mL.'))),
  ),
  /** What its empty jar or the weighing cup weighs, g; absent or null: never weighed. */
  tareG: z.optional(z.nullable(Qty)),
  /** When it was ticked on the list of what to buy; absent or null: not. A later purchase ends it. */
  tickedAt: z.optional(z.nullable(Instant)),
  /** Only flake: width and cut; null: another material, or not told. */
  flake: z.nullable(
    z.object({
      acrossMm: z.number().check(z.gte(0.05, 'At least 0.05 mm.'), z.lte(10, 'At most 10 mm.')),
      cut: z.enum(['hex', 'square']),
    }),
  ),
  /** Roughly what it looks like; null: clear, or not told. */
  swatch: z.nullable(Swatch),
  /** Fluorescent, or changing with heat or light: no forecast covers it. */
  glowsOrChanges: z.boolean(),
  /** Measured off a photo of a bait: what one drop (or 1/8 teaspoon) per cup adds; null: no photo yet. */
  optics: z.nullable(
    z.object({
      absorbPerMm: z.array(perMm).check(z.minLength(16), z.maxLength(16)),
      scatterPerMm: perMm,
      /** The dose of the photographed bait, in steps per cup. */
      dosePerCup: z.number().check(z.gt(0), z.lte(100_000)),
      /** True when it was measured over white and over black. */
      isOnCard: z.boolean(),
    }),
  ),
  /** Set aside by the person: not offered, still in old mixes. */
  isAside: z.boolean(),
};

/** Something the shop buys and uses up. */
export const Material = z.looseObject({ id: MaterialId, ...headParts, ...materialFacts });
export type Material = z.infer<typeof Material>;
