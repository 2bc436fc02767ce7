import { standingOf } from '#calc/log.ts';
import { oneMix, withSides } from '#calc/table-mix.ts';
import { type ToldMix, toldMixes } from '#calc/told-mixes.ts';
import type { Entry } from '#model/entry.ts';
import type { Book } from '#store/book.ts';
import type { FactsOf } from '#store/heads.ts';
import { addMix } from '#store/improvised.ts';
import { versionsOf } from '#store/newest-mixes.ts';
import { withReserve } from '#store/room.ts';

/**
 * Writes the versions that a session poured and that are not in the logbook: the device refused them
 * when they were made up, and the log holds their doses. Doing it again changes nothing.
 */
export async function keepToldMixes(book: Book, entries: readonly Entry[]): Promise<void> {
  for (const told of toldMixes(standingOf(entries))) {
    if (told.mixed.length === 0 || (await book.db.getKey('mixes', told.id)) !== undefined) continue;
    const facts = await factsOf(book, told);
    await withReserve(() => addMix(book, facts, told.at, told.id));
  }
}

/** The same for every session that runs. */
export async function keepRunningMixes(book: Book): Promise<void> {
  const bySession = Map.groupBy(await book.db.getAll('entries'), ({ sessionId }) => sessionId);
  for (const entries of bySession.values()) await keepToldMixes(book, entries);
}

/** What the log does not tell of a version, as a part that was not poured, is as in the one before. */
async function factsOf(book: Book, told: ToldMix): Promise<FactsOf<'mixes'>> {
  const { colourwayId, version, mixed } = told;
  const before = colourwayId
    ? (await versionsOf(book, colourwayId)).find((mix) => mix.version < version)
    : undefined;
  const body = before ? withSides(before, mixed) : oneMix(mixed);
  return { ...body, colourwayId, version, nextTime: before?.nextTime ?? '' };
}
