import { dayOf } from '#calc/days.ts';
import { tableOf } from '#calc/table.ts';
import type { Photo } from '#model/photo.ts';
import type { Route } from '#screens/routes.ts';
import { dateWords } from '#screens/words.ts';
import type { Book } from '#store/book.ts';
import { entriesOf } from '#store/sessions.ts';

/** The evening that poured a bait, with the way to it. */
export interface Poured {
  day: string;
  shot: string;
  route: Route;
}

/** Which evening and shot a photo is of; null: not told, or that evening is not in this logbook. */
export async function pouredWords(book: Book, photo: Photo): Promise<Poured | null> {
  const { sessionId, shotId } = photo;
  if (sessionId === null) return null;
  const entries = await entriesOf(book, sessionId);
  if (entries.length === 0) return null;
  const table = tableOf(entries);
  const shot = table.shots.find(({ id }) => id === shotId);
  const seat = table.allSeats.find(({ mould }) => mould.mouldId === shot?.mouldId);
  const day = dayOf(table.begunAt, table.zone);
  return {
    day: `Poured ${dateWords(day, dayOf(photo.takenAt, table.zone))}`,
    shot: shot ? `${seat?.mould.name ?? 'A mould'}, shot ${shot.number}` : 'The evening',
    route: { at: 'session', sessionId },
  };
}
