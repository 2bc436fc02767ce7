import { type Verdict, verdictOf } from '#calc/balance.ts';
import { mixIdsOf } from '#calc/heirs.ts';
import type { SessionId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Instant } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';
import { allColumns } from '#store/history.ts';
import { sessionsBefore } from '#store/last-time.ts';

/** Older evenings say less of today's mix, and each is read whole. */
const mostSessions = 30;

/** As many evenings back a word on a balance is looked for. */
const mostLooked = 5;

/** What was said of laminates in the last evenings before one that poured them; those without a word are missing. */
export async function lastVerdicts(
  book: Book,
  sessionId: SessionId,
  colourwayIds: readonly ColourwayId[],
): Promise<Map<string, { verdict: Verdict; at: Instant; zone: string }>> {
  const found = new Map<string, { verdict: Verdict; at: Instant; zone: string }>();
  if (colourwayIds.length === 0) return found;
  const before = await sessionsBefore(book, sessionId);
  const mixes = await book.db.getAll('mixes');
  for (const id of colourwayIds) {
    const mixIds = mixIdsOf(mixes, id);
    const poured = before.filter(({ colourways }) =>
      colourways.some(({ colourwayId }) => colourwayId === id),
    );
    for (const { sessionId: earlier, startedAt: at, zone } of poured.slice(0, mostLooked)) {
      const said = verdictOf((await book.db.get('sealed', earlier))?.entries ?? [], id, mixIds);
      if (!said) continue;
      found.set(id, { verdict: said.verdict, at, zone });
      break;
    }
  }
  return found;
}

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
  const mixIds = mixIdsOf(await book.db.getAll('mixes'), colourwayId);
  return sessions.flatMap((session) => {
    const found = session && verdictOf(session.entries, colourwayId, mixIds);
    return found ? [found.verdict] : [];
  });
}
