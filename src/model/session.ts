import * as z from 'zod/mini';
import { Entry, SessionId } from '#model/entry.ts';
import { Instant } from '#model/schemas.ts';

/** An ended session: all its entries, whole and in the order of their stamps. */
export const SealedSession = z.looseObject({
  id: SessionId,
  startedAt: Instant,
  endedAt: Instant,
  zone: z.string(),
  entries: z.array(Entry),
});
export type SealedSession = z.infer<typeof SealedSession>;
