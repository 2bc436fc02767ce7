import * as z from 'zod/mini';
import { SessionId, ShotId } from '#model/entry.ts';
import { ColourwayId } from '#model/gear.ts';
import { MaterialId } from '#model/material.ts';
import { MixId } from '#model/mix.ts';
import { MouldId } from '#model/mould.ts';
import { headParts, Instant, RecordId, Words } from '#model/schemas.ts';

export const PhotoId = RecordId.brand<'PhotoId'>();
export type PhotoId = z.infer<typeof PhotoId>;

const coordinate = z.number().check(z.gte(-1_000), z.lte(1_000));
const Lab = z.tuple([coordinate, coordinate, coordinate]);

/** Why a photo teaches nothing. */
export const photoFaults = [
  'too bright',
  'too dark',
  'coloured light',
  'uneven light',
  'patchy',
  'altered tones',
] as const;

/** The colour of one spot of a bait, as read beside white paper and a grey card. */
export const PhotoReading = z.object({
  /** The whole bait, or of a laminate side A, the line where they meet, side B. */
  part: z.enum(['only', 'a', 'line', 'b']),
  /** CIELAB (D65), the bait on white paper. */
  lab: Lab,
  fault: z.nullable(z.enum(photoFaults)),
  /** What the optics of that day forecast for it, before any correction; null: no forecast could be. */
  forecast: z.nullable(Lab),
});
export type PhotoReading = z.infer<typeof PhotoReading>;

/** A stored picture is never longer than this on either side. */
export const mostPhotoPx = 1_600;
/** Nor heavier than this. */
export const mostPhotoBytes = 400_000;
const side = z.int().check(z.gte(1), z.lte(mostPhotoPx));

export const photoFacts = {
  /** A bait of a colourway, or a bait of one material on the black and white card. */
  shows: z.enum(['bait', 'card']),
  colourwayId: z.nullable(ColourwayId),
  /** The version of the mix that was poured; null: none was written down. */
  mixId: z.nullable(MixId),
  materialId: z.nullable(MaterialId),
  /** The evening that poured it; null: not told. */
  sessionId: z.nullable(SessionId),
  /** The shot of that evening; absent or null: of no shot in particular. */
  shotId: z.optional(z.nullable(ShotId)),
  /** The mould of that shot, so that it is found without its evening. */
  mouldId: z.optional(z.nullable(MouldId)),
  takenAt: Instant,
  widthPx: side,
  heightPx: side,
  mediaType: z.enum(['image/jpeg', 'image/webp', 'image/png']),
  /** Drawn for the demo shop, not taken with a camera. */
  isDrawn: z.boolean(),
  /** 1 to 5, the person's own liking; null: none given. */
  rating: z.nullable(z.int().check(z.gte(1), z.lte(5))),
  /** Of the bait where its colour was read; null: not read. */
  thicknessMm: z.nullable(z.number().check(z.gt(0), z.lte(100))),
  /** Colours read off it; none: not read. */
  readings: z.array(PhotoReading).check(z.maxLength(3)),
};

/** What is known of one picture; its bytes lie in a table of their own. */
export const Photo = z.looseObject({ id: PhotoId, ...headParts, ...photoFacts });
export type Photo = z.infer<typeof Photo>;

/** The bytes of one picture, re-encoded here: no place, no camera. Never a Blob: some browsers lose those. */
export const PhotoBytes = z.object({
  id: PhotoId,
  bytes: z
    .instanceof(ArrayBuffer)
    .check(z.refine(({ byteLength }) => byteLength > 0 && byteLength <= mostPhotoBytes)),
});
export type PhotoBytes = z.infer<typeof PhotoBytes>;

export const RemarkId = RecordId.brand<'RemarkId'>();
export type RemarkId = z.infer<typeof RemarkId>;

export const remarkFacts = {
  /** At the pour, after curing, or how the bait did in the water. */
  kind: z.enum(['pour', 'cure', 'water']),
  text: Words,
  colourwayId: z.nullable(ColourwayId),
  mixId: z.nullable(MixId),
  mouldId: z.nullable(MouldId),
  sessionId: z.nullable(SessionId),
};

/** A note of the person about a bait. */
export const Remark = z.looseObject({ id: RemarkId, ...headParts, ...remarkFacts });
export type Remark = z.infer<typeof Remark>;

export const IdeaId = RecordId.brand<'IdeaId'>();
export type IdeaId = z.infer<typeof IdeaId>;

export const ideaFacts = {
  text: Words,
  colourwayId: z.nullable(ColourwayId),
  mouldId: z.nullable(MouldId),
  /** When it was poured or dropped; null: still an idea. */
  doneAt: z.nullable(Instant),
};

/** Something to pour one day. */
export const Idea = z.looseObject({ id: IdeaId, ...headParts, ...ideaFacts });
export type Idea = z.infer<typeof Idea>;
