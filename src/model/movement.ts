import * as z from 'zod/mini';
import { Cents, MaterialId, Qty, QtyAboveZero } from '#model/material.ts';
import { DeviceId, Instant, RecordId, Stamp, Words } from '#model/schemas.ts';

export const MovementId = RecordId.brand<'MovementId'>();
export type MovementId = z.infer<typeof MovementId>;

/**
 * One line of the stock journal, written once and never changed. What a session pours is no line of
 * its own: it is read off the session's own entries, so that Undo and a merge cannot leave the two
 * apart.
 */
export const Movement = z.looseObject({
  id: MovementId,
  materialId: MaterialId,
  at: Instant,
  writtenAt: Instant,
  stamp: Stamp,
  device: DeviceId,
  says: z.discriminatedUnion('kind', [
    z.object({
      kind: z.literal('bought'),
      qty: QtyAboveZero,
      cents: Cents,
      lot: z.string().check(z.maxLength(60)),
    }),
    /** Spilled, given away, gone off. */
    z.object({ kind: z.literal('lost'), qty: QtyAboveZero }),
    /** The scale or the count says so: the level starts again from here. */
    z.object({ kind: z.literal('counted'), level: Qty }),
    /** Looked at and still right; moves nothing. */
    z.object({ kind: z.literal('checked') }),
    /** A container was opened, of this lot where it has one; moves nothing. */
    z.object({ kind: z.literal('opened'), lot: z.string().check(z.maxLength(60)) }),
    z.object({ kind: z.literal('taken-back'), target: MovementId }),
  ]),
  note: Words,
});
export type Movement = z.infer<typeof Movement>;
