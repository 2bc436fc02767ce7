import * as z from 'zod/mini';
import { SessionId } from '#model/entry.ts';
import { ColourwayId } from '#model/gear.ts';
import { MaterialId } from '#model/material.ts';
import { MixId } from '#model/mix.ts';
import { MouldId } from '#model/mould.ts';
import { headParts, Instant, RecordId, Words } from '#model/schemas.ts';

export const PhotoId = RecordId.brand<'PhotoId'>();
export type PhotoId = z.infer<typeof PhotoId>;

const Lab = z.tuple([z.number(), z.number(), z.number()]);

export const photoFacts = {
  /** A bait of a colourway, or a bait of one colourant on the black and white card. */
  shows: z.enum(['bait', 'card']),
  colourwayId: z.nullable(ColourwayId),
  mixId: z.nullable(MixId),
  materialId: z.nullable(MaterialId),
  sessionId: z.nullable(SessionId),
  takenAt: Instant,
  widthPx: z.int().check(z.gte(1), z.lte(10_000)),
  heightPx: z.int().check(z.gte(1), z.lte(10_000)),
  mediaType: z.enum(['image/jpeg', 'image/webp', 'image/png']),
  /** Drawn for the demo shop, not taken with a camera. */
  isDrawn: z.boolean(),
  /** 1 to 5, the person's own liking; null: none given. */
  rating: z.nullable(z.int().check(z.gte(1), z.lte(5))),
  thicknessMm: z.nullable(z.number().check(z.gt(0), z.lte(100))),
  /** Colour read off it, CIELAB (D65), and why it teaches nothing; null: not read. */
  reading: z.nullable(z.object({ lab: Lab, fault: z.nullable(z.string().check(z.maxLength(40))) })),
  /** What was forecast for this mix on the day of the photo; null: nothing was. */
  forecast: z.nullable(Lab),
};

/** What is known of one picture; its bytes lie in a table of their own. */
export const Photo = z.looseObject({ id: PhotoId, ...headParts, ...photoFacts });
export type Photo = z.infer<typeof Photo>;

/** The bytes of one picture, re-encoded here: no place, no camera. */
export const PhotoBytes = z.object({ id: PhotoId, bytes: z.instanceof(ArrayBuffer) });
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
