import * as z from 'zod/mini';
import { defects } from '#model/defect.ts';
import { ColourwayId, FrozenInjector, InjectorId } from '#model/gear.ts';
import { MixId, PouredMix } from '#model/mix.ts';
import { FrozenMould, MouldId } from '#model/mould.ts';
import {
  DeviceId,
  Instant,
  Name,
  RecordId,
  ShortName,
  Stamp,
  Swatch,
  TempC,
  VolumeMl,
  Words,
} from '#model/schemas.ts';
import { trials } from '#model/trial.ts';

export const SessionId = RecordId.brand<'SessionId'>();
export type SessionId = z.infer<typeof SessionId>;
export const EntryId = RecordId.brand<'EntryId'>();
export type EntryId = z.infer<typeof EntryId>;
export const ShotId = RecordId.brand<'ShotId'>();
export type ShotId = z.infer<typeof ShotId>;
export const PotId = RecordId.brand<'PotId'>();
export type PotId = z.infer<typeof PotId>;

/** What one cavity gave. `not-checked` is a value of its own: nothing turns it into good but the person. */
export const Result = z.enum(['good', 'closed', 'not-checked', ...defects]);
export type Result = z.infer<typeof Result>;

/** A pot when it is filled: what is in it and how often that had been hot before. */
const MixedPot = z.object({
  potId: PotId,
  /** Place on the table: 0 is the only pot, or side A of a laminate; 1 is side B. */
  slot: z.int().check(z.gte(0), z.lte(5)),
  name: Name,
  swatch: z.nullable(Swatch),
  volumeMl: VolumeMl,
  /** Heats the material already had (remelt); 0 for fresh plastisol. */
  meanHeats: z.number().check(z.gte(0), z.lte(1_000)),
  maxHeats: z.number().check(z.gte(0), z.lte(1_000)),
  /** The version of the mix, frozen as it was really poured; absent or null: no mix was used. */
  mix: z.optional(z.nullable(PouredMix)),
  /** What is written on the cup, `1203-2`: the day and which pot of that day; absent: nothing was. */
  batch: z.optional(z.nullable(z.string().check(z.maxLength(20)))),
  /** The pot that this one was made up beside, as the other side of a laminate; absent or null: none. */
  besidePotId: z.optional(z.nullable(PotId)),
});
export type MixedPot = z.infer<typeof MixedPot>;

/** One fill of one mould. */
const FilledShot = z.object({
  shotId: ShotId,
  mouldId: MouldId,
  volumeMl: VolumeMl,
  /** Cavities that were closed off at that moment. */
  closed: z.array(z.int()),
  /** Time on the clock when it started; null: no clock. */
  setSec: z.nullable(z.number().check(z.gt(0), z.lte(7_200))),
});
export type FilledShot = z.infer<typeof FilledShot>;

/** Bad baits on a scale, g. */
export const ScrapG = z
  .number()
  .check(z.gte(0, 'It cannot weigh less than nothing.'), z.lte(100_000, 'Keep it to 100 kg.'));

const cavity = z.int().check(z.gte(1), z.lte(144));

/** Everything a session entry can say, by kind. */
export const Said = z.discriminatedUnion('kind', [
  z.looseObject({
    kind: z.literal('session-begun'),
    /** IANA zone where the session was poured: it decides which day it belongs to. */
    zone: z.string().check(z.minLength(1), z.maxLength(64)),
    ambientC: TempC,
    /** Taken for the pour temperature of a pot that was not measured. */
    pourC: TempC,
  }),
  z.looseObject({ kind: z.literal('ambient-read'), ambientC: TempC }),
  z.looseObject({
    kind: z.literal('lined-up'),
    moulds: z.array(FrozenMould).check(z.maxLength(3, 'At most three moulds at a time.')),
    injector: z.nullable(FrozenInjector),
  }),
  z.looseObject({
    kind: z.literal('pot-mixed'),
    colourwayId: z.nullable(ColourwayId),
    name: Name,
    /** True: every other pot leaves the table. False: one side of a laminate was renewed. */
    isAlone: z.boolean(),
    pots: z.array(MixedPot).check(z.minLength(1), z.maxLength(6)),
  }),
  z.looseObject({ kind: z.literal('pot-heated'), potId: PotId }),
  z.looseObject({
    kind: z.literal('pot-topped-up'),
    potId: PotId,
    volumeMl: VolumeMl,
    meanHeats: z.number().check(z.gte(0), z.lte(1_000)),
    maxHeats: z.number().check(z.gte(0), z.lte(1_000)),
    /** What coloured it; absent or null: it came coloured, or nobody told. */
    mix: z.optional(z.nullable(PouredMix)),
  }),
  z.looseObject({ kind: z.literal('pot-read'), potId: PotId, tempC: TempC }),
  z.looseObject({
    kind: z.literal('pot-emptied'),
    potId: PotId,
    /** What was left in it, mL, 0 for poured dry; absent or null: nobody told. */
    leftMl: z.optional(
      z.nullable(
        z.number().check(z.gte(0, 'Not below 0.'), z.lte(20_000, 'More than 20 litres cannot be.')),
      ),
    ),
  }),
  z.looseObject({
    kind: z.literal('filled'),
    shots: z.array(FilledShot).check(z.minLength(1), z.maxLength(3)),
    potIds: z.array(PotId),
    injectorId: z.nullable(InjectorId),
  }),
  z.looseObject({
    /** One more layer in an open mould, on what is in it. */
    kind: z.literal('layer-poured'),
    potId: PotId,
    shots: z
      .array(z.object({ shotId: ShotId, volumeMl: VolumeMl }))
      .check(z.minLength(1), z.maxLength(3)),
  }),
  /** The layer that was poured last is the last of this shot. */
  z.looseObject({ kind: z.literal('layers-ended'), shotId: ShotId }),
  z.looseObject({ kind: z.literal('clock-stopped'), shotId: ShotId }),
  z.looseObject({
    kind: z.literal('opened'),
    /** Per shot, what each cavity gave, in counting order. */
    shots: z
      .array(
        z.object({
          shotId: ShotId,
          results: z.array(Result).check(z.minLength(1), z.maxLength(144)),
        }),
      )
      .check(z.minLength(1), z.maxLength(3)),
  }),
  z.looseObject({ kind: z.literal('skipped'), mouldId: MouldId, isSkipped: z.boolean() }),
  z.looseObject({
    kind: z.literal('cavity-closed'),
    mouldId: MouldId,
    cavity,
    isClosed: z.boolean(),
  }),
  z.looseObject({
    kind: z.literal('set-time-chosen'),
    mouldId: MouldId,
    setSec: z.nullable(z.int().check(z.gte(15), z.lte(3_600))),
    hasNoClock: z.boolean(),
  }),
  z.looseObject({ kind: z.literal('mould-read'), mouldId: MouldId, tempC: TempC }),
  /** What the next rounds or the next layer are poured from; holds until a side is mixed anew. */
  z.looseObject({
    kind: z.literal('pot-chosen'),
    potIds: z.array(PotId).check(z.minLength(1), z.maxLength(6)),
  }),
  z.looseObject({ kind: z.literal('injector-taken'), injector: z.nullable(FrozenInjector) }),
  /** How many pieces of a part mould lie in its tray, counted by hand: it holds from there on. */
  z.looseObject({
    kind: z.literal('tray-counted'),
    mouldId: MouldId,
    count: z.int().check(z.gte(0), z.lte(100_000)),
  }),
  /** A shot that tried something of a new mould, and whether it did; null: it was no trial after all. */
  z.looseObject({
    kind: z.literal('tried'),
    shotId: ShotId,
    what: z.enum(trials),
    did: z.nullable(z.boolean()),
  }),
  /** The colours of the evening in the order in which they are to be poured; it binds nobody. */
  z.looseObject({
    kind: z.literal('colours-planned'),
    colourwayIds: z.array(ColourwayId).check(z.maxLength(40)),
  }),
  /** Who pours from here on. */
  z.looseObject({ kind: z.literal('pourer-named'), name: ShortName }),
  z.looseObject({ kind: z.literal('noted'), text: Words }),
  /** What the bad baits of the session weighed on a scale, without sprues; the newest one counts. */
  z.looseObject({ kind: z.literal('scrap-weighed'), massG: ScrapG }),
  z.looseObject({
    /** How the two sides of a laminate came out: the last word of a session counts. */
    kind: z.literal('laminate-judged'),
    /** Null: it was made up at the table and had no name then; `mixId` says which it was. */
    colourwayId: z.nullable(ColourwayId),
    mixId: z.optional(MixId),
    verdict: z.enum(['even', 'a-won', 'b-won']),
  }),
  z.looseObject({ kind: z.literal('session-ended') }),
]);
export type Said = z.infer<typeof Said>;
export type Kind = Said['kind'];
/** What an entry of one kind says. */
export type SaidOf<K extends Kind> = Extract<Said, { kind: K }>;

const entryParts = {
  id: EntryId,
  sessionId: SessionId,
  /** When it happened. "That was two minutes ago" moves it. */
  at: Instant,
  /** When it was written down. */
  writtenAt: Instant,
  stamp: Stamp,
  device: DeviceId,
};

/**
 * One line of the log. Written once, never changed. A correction is an entry of its own:
 * `put-right` says what its target should have said, `taken-back` says that it never was.
 */
export const Entry = z.union([
  z.looseObject({ ...entryParts, said: Said }),
  z.looseObject({
    ...entryParts,
    said: z.discriminatedUnion('kind', [
      z.looseObject({
        kind: z.literal('put-right'),
        target: EntryId,
        /** What the target should have said, and when it happened. */
        says: Said,
        happenedAt: Instant,
      }),
      z.looseObject({ kind: z.literal('taken-back'), target: EntryId }),
    ]),
  }),
]);
export type Entry = z.infer<typeof Entry>;
