import { type Verdict, verdictOf } from '#calc/balance.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Book } from '#store/book.ts';
import { allColumns } from '#store/history.ts';

/** Older evenings say less of today's mix, and each is read whole. */
const mostSessions = 30;

/** What was said of a laminate's balance, evening by evening, newest first. */
export async function verdictsOn(book: Book, colourwayId: ColourwayId): Promise<Verdict[]> {
  const poured = (await allColumns(book)).filter(({ colourways }) =>
    colourways.some((colourway) => colourway.colourwayId === colourwayId),
  );
  const sessions = await Promise.all(
    poured
      .slice(-mostSessions)
      .reverse()
      .map(({ sessionId }) => book.db.get('sealed', sessionId)),
  );
  return sessions.flatMap((session) => {
    const found = session && verdictOf(session.entries, colourwayId);
    return found ? [found.verdict] : [];
  });
}
