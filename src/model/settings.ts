import * as z from 'zod/mini';
import { headParts, Instant, ShortName, TempC, VolumeMl } from '#model/schemas.ts';

/** What becomes of one thing of an old session that is poured again. */
export const Carry = z.enum(['as-then', 'left-out', 'asked']);
export type Carry = z.infer<typeof Carry>;

const carry = z.optional(Carry);

/** The person's last choice for each thing that an old session can bring; absent: as then. */
export const Carries = z.object({
  moulds: carry,
  colours: carry,
  injector: carry,
  pot: carry,
  setTimes: carry,
  pourTemp: carry,
  pourer: carry,
});
export type Carries = z.infer<typeof Carries>;

export const settingsFacts = {
  /** Palette; light until the person chooses, whatever the phone does: the table is read in daylight. */
  palette: z.enum(['chalk', 'lamp']),
  /** On which side of the table the main key lies. */
  mainKeySide: z.enum(['left', 'right']),
  /** Least size of the table's lesser keys: 72, 96 or 112 px, as the gloves need it. */
  keySize: z.enum(['usual', 'large', 'largest']),
  /** Where the shop's music plays: it decides how sound is asked for. Null: not asked yet. */
  music: z.nullable(z.enum(['this-phone', 'elsewhere', 'none'])),
  /** Whether the ready sound was heard over everything, or the person watches instead. Null: not checked. */
  hearing: z.nullable(z.enum(['heard', 'watches'])),
  /** Keys of a pedal, page turner or keyboard, as `code` or `key` of the press; null: the usual keys. */
  pedal: z.nullable(
    z.object({
      press: z.array(z.string().check(z.maxLength(40))).check(z.maxLength(10)),
      undo: z.array(z.string().check(z.maxLength(40))).check(z.maxLength(10)),
    }),
  ),
  tempUnit: z.enum(['C', 'F']),
  volumeUnit: z.enum(['cup', 'floz', 'mL']),
  /** What baits are measured in; absent: mm. */
  lengthUnit: z.optional(z.enum(['mm', 'in'])),
  /** What the shop weighs in; absent: g. */
  massUnit: z.optional(z.enum(['g', 'oz'])),
  /** Baits that go into a bag, for what one costs; absent: not told. */
  baitsPerBag: z.optional(z.int().check(z.gte(1, 'At least 1.'), z.lte(1_000, 'At most 1,000.'))),
  /** What an hour of the person is worth, cents; absent or 0: time costs nothing here. */
  hourCents: z.optional(
    z.int().check(z.gte(0, 'Not below 0.'), z.lte(10_000_000, 'At most 100,000.')),
  ),
  /** The person's own limit for heats of a pot; null: none set. A sentence, never a block. */
  heatLimit: z.nullable(z.int().check(z.gte(1, 'At least 1.'), z.lte(50, 'At most 50.'))),
  /** Shop temperature that a session starts with. */
  ambientC: TempC,
  /** Pour temperature used while no reading of the pot is known. */
  pourC: TempC,
  /** The temperatures between which this person likes to pour, °C; absent or null: nobody said. */
  pourWindow: z.optional(z.nullable(z.object({ fromC: TempC, toC: TempC }))),
  /** Volume that a new mix starts with. */
  potMl: VolumeMl,
  /** Who pours in this shop, one or two people; absent or empty: nobody was named. */
  people: z.optional(z.array(ShortName).check(z.maxLength(2, 'Two names at most.'))),
  /** Which of them pours now; absent: the first. */
  pourer: z.optional(ShortName),
  /** How an old session is poured again; absent: everything as then. */
  carries: z.optional(Carries),
  /** When the cautions were first read; null: not yet. */
  cautionsReadAt: z.nullable(Instant),
};

/** How this shop likes things. */
export const Settings = z.looseObject({
  id: z.literal('settings'),
  ...headParts,
  ...settingsFacts,
});
export type Settings = z.infer<typeof Settings>;
