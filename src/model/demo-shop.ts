import * as z from 'zod/mini';
import { Change } from '#model/change.ts';
import { Colourway, Injector } from '#model/gear.ts';
import { Material } from '#model/material.ts';
import { Mix } from '#model/mix.ts';
import { Mould } from '#model/mould.ts';
import { Movement } from '#model/movement.ts';
import { Photo } from '#model/photo.ts';
import { SealedSession } from '#model/session.ts';
import { Settings } from '#model/settings.ts';

/**
 * A made-up shop to look round in: the records of one logbook, without what is worked out from
 * them. Its clock times are those of the shop's wall, written as if the wall stood in UTC; the
 * loader moves them into the person's zone and up to yesterday.
 */
export const DemoShop = z.object({
  made: z.literal('demo'),
  /** The number of rungs on the ladder when it was made. */
  version: z.int(),
  moulds: z.array(Mould),
  injectors: z.array(Injector),
  colourways: z.array(Colourway),
  mixes: z.array(Mix),
  changes: z.array(Change),
  materials: z.array(Material),
  /** The stock journal, oldest first. */
  movements: z.array(Movement),
  settings: Settings,
  /** Drawn pictures of baits, as base64 of a PNG each. */
  pictures: z.array(z.object({ photo: Photo, png: z.string() })),
  /** Oldest first. */
  sessions: z.array(SealedSession).check(z.minLength(1)),
});
export type DemoShop = z.infer<typeof DemoShop>;
