import * as z from 'zod/mini';
import { defects } from '#model/defect.ts';
import { headParts, Name, RecordId, VolumeMl } from '#model/schemas.ts';

export const MouldId = RecordId.brand<'MouldId'>();
export type MouldId = z.infer<typeof MouldId>;

const side = z.int().check(z.gte(1, 'At least 1.'), z.lte(12, 'At most 12.'));
const share = z.number().check(z.gte(0), z.lte(1));

/** Where the cavities lie, in the mould's home position: the edge where the plastic goes in is up. */
export const Layout = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('grid'),
    rows: side,
    cols: side,
    /** Which way the person counts: down the columns or across the rows. */
    run: z.enum(['down', 'across']),
    /** The corner where the count begins. */
    from: z.enum(['top-left', 'top-right', 'bottom-left', 'bottom-right']),
  }),
  z.object({
    kind: z.literal('free'),
    /** Centre of each cavity in counting order, as shares of the mould's width and height. */
    spots: z
      .array(z.object({ x: share, y: share }))
      .check(z.minLength(1, 'A mould has at least one cavity.'), z.maxLength(48, 'At most 48.')),
  }),
]);
export type Layout = z.infer<typeof Layout>;

export const Material = z.enum(['aluminium', 'silicone', 'stone']);
export type Material = z.infer<typeof Material>;

/** The thickest part of the bait, which sets last. */
export const Section = z.object({
  shape: z.enum(['flat', 'round']),
  thicknessMm: z.number().check(z.gte(0.5, 'At least 0.5 mm.'), z.lte(100, 'At most 100 mm.')),
});
export type Section = z.infer<typeof Section>;

/** What a bait is made of besides its body, by the word for one piece. */
export const PartKind = z.enum(['tail', 'leg', 'claw', 'wing', 'part']);
export type PartKind = z.infer<typeof PartKind>;

/** How many pieces of one part mould a single cavity takes. */
const each = z.int().check(z.gte(1, 'At least 1.'), z.lte(12, 'At most 12.'));
/** A body may take parts of several moulds, and one part mould may serve several bodies. */
const mostNeeds = z.maxLength(6, 'At most six kinds of part.');

/** What a mould is, without the record's book-keeping. */
export const mouldFacts = {
  name: Name,
  layout: Layout,
  /** `mirrored`: the baits lie in the other half when it is opened, so left and right change places. */
  opens: z.enum(['same', 'mirrored']),
  material: Material,
  /** Both halves with what is clamped to them; null: not weighed, taken from the cavity count. */
  massG: z.nullable(
    z.number().check(z.gte(50, 'A mould weighs at least 50 g.'), z.lte(100_000, 'At most 100 kg.')),
  ),
  /** One bait; null: not measured. */
  partMl: z.nullable(VolumeMl),
  /** Sprue and runners of one shot; null: not measured. */
  sprueMl: z.nullable(
    z.number().check(z.gte(0, 'Not below 0.'), z.lte(10_000, 'More than 10 litres cannot be.')),
  ),
  section: z.nullable(Section),
  /** The thinnest part of the bait, mm: it shows its colour otherwise; absent or null: not measured. */
  thinnestMm: z.optional(
    z.nullable(z.number().check(z.gte(0.2, 'At least 0.2 mm.'), z.lte(100, 'At most 100 mm.'))),
  ),
  /** Numbers of the cavities that are out of use. */
  closed: z.array(z.int().check(z.gte(1), z.lte(144))),
  /** The person's own set time; null: worked out or learnt. */
  setSec: z.nullable(z.int().check(z.gte(15, 'At least 0:15.'), z.lte(3_600, 'At most an hour.'))),
  /** True for people who watch the mould and not the clock. */
  hasNoClock: z.boolean(),
  /** How it takes and loses heat, learnt from thermometer readings; null: none taken yet. */
  heat: z.nullable(
    z.object({
      tauSec: z.number().check(z.gt(0), z.lte(100_000)),
      uptake: z.number().check(z.gt(0), z.lte(2)),
    }),
  ),
  /** Its pieces go into other baits and are kept in a tray; absent or null: it makes whole baits. */
  makes: z.optional(z.nullable(PartKind)),
  /** The parts that every cavity takes; absent: none. */
  needs: z.optional(z.array(z.object({ mouldId: MouldId, each })).check(mostNeeds)),
  /** How it is filled: shut, from an injector, or open, layer on layer; absent: injected. */
  fill: z.optional(z.enum(['injected', 'by-hand'])),
  /** What the person made of it when it was tried; absent or null: not said. */
  verdict: z.optional(z.nullable(z.enum(['keep', 'not-yet', 'no-use']))),
};

/** A mould of the shop. */
export const Mould = z.looseObject({ id: MouldId, ...headParts, ...mouldFacts });
export type Mould = z.infer<typeof Mould>;

/** A mould as it was when it was put on the table; later changes to the mould leave it alone. */
export const FrozenMould = z.looseObject({
  mouldId: MouldId,
  ...mouldFacts,
  /** The parts that every cavity takes, with what they were called then; absent: none. */
  needs: z.optional(
    z.array(z.object({ mouldId: MouldId, each, name: Name, part: PartKind })).check(mostNeeds),
  ),
  /** How long the person's own good shots stayed shut, newest last; at most 20. */
  ownOpensSec: z.array(z.number().check(z.gt(0))),
  /** A shot poured while it is less than this above the shop is cold; null: no cold flag. */
  warmAboveK: z.nullable(z.number().check(z.gte(0), z.lte(100))),
  /** What that line comes from; absent: it is the usual one. */
  warmFrom: z.optional(z.enum(['temperature', 'shots', 'none-seen', 'usual'])),
  /** Defects of this mould, commonest first; the order holds for the session. */
  defectOrder: z.array(z.enum(defects)),
  /** How many bad cavities of its own that order comes from; absent or 0: it is the usual order. */
  badSeen: z.optional(z.int().check(z.gte(0))),
});
export type FrozenMould = z.infer<typeof FrozenMould>;
