import { columnsOf } from '#calc/columns.ts';
import { inStampOrder } from '#calc/log.ts';
import { tableOf } from '#calc/table.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import { checked } from '#store/door.ts';

/** Whether the entries are still the ones that were read a moment ago. */
export function isUntouched(now: readonly Entry[] | undefined, before: readonly Entry[]): boolean {
  return now?.length === before.length && now.at(-1)?.id === before.at(-1)?.id;
}

/** Ends a transaction in which nothing was written. */
export async function leave(tx: { done: Promise<void> }): Promise<false> {
  await tx.done;
  return false;
}

/** The record of an ended session of these entries, checked, and its columns. */
export async function sealedOf(sessionId: SessionId, entries: readonly Entry[]) {
  const table = tableOf(entries);
  const sealed = await checked('sealed', {
    id: sessionId,
    startedAt: table.begunAt,
    endedAt: table.endedAt ?? table.lastAt,
    zone: table.zone,
    entries: inStampOrder(entries),
  });
  return { sealed, columns: columnsOf(sessionId, entries) };
}
