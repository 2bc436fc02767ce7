import * as z from 'zod/mini';
import { Result, SessionId, ShotId } from '#model/entry.ts';

/** Marks that were begun on a cavity map and not saved. They survive Back, sleep and a killed browser. */
export const Draft = z.object({
  sessionId: SessionId,
  /** Per shot, what each cavity was marked with so far. */
  marks: z.array(z.object({ shotId: ShotId, results: z.array(Result) })),
  /** The shot whose map is open; null: no map. */
  openShotId: z.nullable(ShotId),
});
export type Draft = z.infer<typeof Draft>;
