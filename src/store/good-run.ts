import { bestRun, type RatedRun, ratedRuns } from '#calc/good-run.ts';
import { type RunCourse, runCourse } from '#calc/run-course.ts';
import type { SessionId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';
import type { Book } from '#store/book.ts';
import { columnsInBatches } from '#store/history.ts';
import { entriesOf } from '#store/sessions.ts';
import { breath } from '#store/steps.ts';

/** A good session of the past with how it ran. */
export interface GoodRun extends RatedRun {
  course: RunCourse;
}

/** The best past session of a mould, read a few at a time beside the page; null: none says enough. */
export async function goodRun(
  book: Book,
  asked: { sessionId: SessionId; mouldId: MouldId; colourwayId: ColourwayId | null },
): Promise<GoodRun | null> {
  const runs: RatedRun[] = [];
  for await (const batch of columnsInBatches(book)) {
    const others = batch.filter(({ sessionId }) => sessionId !== asked.sessionId);
    runs.push(...ratedRuns(others, asked));
    await breath();
  }
  const best = bestRun(runs);
  if (!best) return null;
  const entries = await entriesOf(book, best.sessionId);
  return { ...best, course: runCourse(best.sessionId, entries, asked.mouldId) };
}
