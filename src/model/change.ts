import * as z from 'zod/mini';
import { defects } from '#model/defect.ts';
import { MouldId } from '#model/mould.ts';
import { headParts, Instant, RecordId, Words } from '#model/schemas.ts';

export const ChangeId = RecordId.brand<'ChangeId'>();
export type ChangeId = z.infer<typeof ChangeId>;

/** What can be done to a mould. */
export const changeKinds = [
  'vent-opened',
  'vents-cleaned',
  'mould-cleaned',
  'injector',
  'push-speed',
  'set-time',
  'other',
] as const;

/** Nothing was done: the person saw that the mould runs differently, and the watch begins anew. */
export const driftSeen = 'drift-seen';

export const changeFacts = {
  mouldId: MouldId,
  at: Instant,
  kind: z.enum([...changeKinds, driftSeen]),
  /** Cavities it was done to; none: the whole mould. */
  cavities: z.array(z.int().check(z.gte(1), z.lte(144))).check(z.maxLength(144)),
  /** The defect it was to mend; null: none in particular. */
  defect: z.nullable(z.enum(defects)),
  /** True when the cavity was picked because it looked worst: the answer then needs more. */
  wasPickedAsWorst: z.boolean(),
  text: Words,
};

/** Something that was done to a mould, or otherwise done with it, to find out whether it helped. */
export const Change = z.looseObject({ id: ChangeId, ...headParts, ...changeFacts });
export type Change = z.infer<typeof Change>;
