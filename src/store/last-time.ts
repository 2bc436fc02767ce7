import type { Columns } from '#calc/columns.ts';
import { standingOf } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import { type Table, tableOf } from '#calc/table.ts';
import type { SessionId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';
import type { Book } from '#store/book.ts';
import { columnsBackFrom } from '#store/history.ts';

/** So far back something counts as "last time". */
const mostSessions = 40;
/** A reading is found in entries, which are read whole. */
const mostRead = 5;

/** The newest digests, newest first; with a session that ended, those that came before it. */
export async function sessionsBefore(book: Book, sessionId: SessionId | null): Promise<Columns[]> {
  const sealed = sessionId && (await book.db.get('sealed', sessionId));
  const own = sealed ? await book.db.get('columns', [sealed.startedAt, sealed.id]) : undefined;
  return await columnsBackFrom(book, own ?? null, mostSessions);
}

/** The last thermometer readings of earlier evenings. */
export interface LastReadings {
  /** Of a pot of this colour, else of any pot, °C; null: none in the last sessions. */
  potC: (colourwayId: ColourwayId | null) => number | null;
  mouldC: (mouldId: MouldId) => number | null;
}

/** What the thermometer showed in the last few sessions. */
export async function lastReadingsOf(book: Book): Promise<LastReadings> {
  const newest = await columnsBackFrom(book, null, mostRead);
  const sealed = await Promise.all(newest.map(({ sessionId }) => book.db.get('sealed', sessionId)));
  const tables = sealed.flatMap((session) => (session ? [tableOf(session.entries)] : []));
  const pots = tables.flatMap(potReadings);
  return {
    potC: (colourwayId) =>
      (pots.find((one) => one.colourwayId === colourwayId) ?? pots[0])?.tempC ?? null,
    mouldC: (mouldId) => {
      for (const { allSeats } of tables) {
        const seat = allSeats.find(({ mould }) => mould.mouldId === mouldId);
        const read = seat?.readings.at(-1);
        if (read) return read.tempC;
      }
      return null;
    },
  };
}

/**
 * How much the person mixed, or topped a pot up with, in the last ended session that tells it, mL;
 * null: none of the last few does.
 */
export async function lastVolumeOf(
  book: Book,
  kind: 'pot-mixed' | 'pot-topped-up',
): Promise<number | null> {
  for (const { sessionId } of await columnsBackFrom(book, null, mostRead)) {
    const sealed = await book.db.get('sealed', sessionId);
    const said = all(standingOf(sealed?.entries ?? []), kind).at(-1)?.said;
    if (said) return said.kind === 'pot-mixed' ? (said.pots[0]?.volumeMl ?? null) : said.volumeMl;
  }
  return null;
}

/** The readings of the pots of a session, newest first. */
function potReadings({ pots }: Table) {
  return pots
    .flatMap(({ colourwayId, course }) =>
      course.flatMap((one) => (one.kind === 'read' ? [{ colourwayId, ...one }] : [])),
    )
    .sort((a, b) => b.at - a.at);
}
