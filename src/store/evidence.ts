import { sessionsOfMould } from '#calc/last-poured.ts';
import { type LoggedShot, loggedShots } from '#calc/mould-shots.ts';
import { type PastEvidence, pastEvidence } from '#calc/running-evidence.ts';
import type { MouldId } from '#model/mould.ts';
import type { Book } from '#store/book.ts';
import { headsOf } from '#store/heads.ts';
import { columnsInBatches } from '#store/history.ts';
import { breath } from '#store/steps.ts';

/** What the ended sessions say of a mould's cavities, read a few at a time beside the pouring. */
export async function evidenceOf(book: Book, mouldId: MouldId): Promise<PastEvidence> {
  const shots: LoggedShot[] = [];
  for await (const batch of columnsInBatches(book)) {
    shots.push(...loggedShots(sessionsOfMould(batch, mouldId), mouldId));
    await breath();
  }
  const changes = (await headsOf(book, 'changes')).filter((one) => one.mouldId === mouldId);
  return pastEvidence(shots, changes);
}
