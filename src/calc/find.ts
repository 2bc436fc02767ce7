import type { Columns } from '#calc/columns.ts';
import { dayOf } from '#calc/days.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';
import type { Photo } from '#model/photo.ts';

/** What is looked for; null: any. A month is `2026-11`. */
export interface Wanted {
  colourwayId: ColourwayId | null;
  mouldId: MouldId | null;
  month: string | null;
}

/** The photos of it. One whose mould was not told is found by its colour and month alone. */
export function foundPhotos(photos: readonly Photo[], wanted: Wanted, zone: string): Photo[] {
  const { colourwayId, mouldId, month } = wanted;
  return photos.filter(
    (photo) =>
      (colourwayId === null || photo.colourwayId === colourwayId) &&
      (mouldId === null || photo.mouldId === mouldId) &&
      (month === null || dayOf(photo.takenAt, zone).startsWith(month)),
  );
}

/** The evenings that poured it, newest first: a colour and a mould in one and the same shot. */
export function foundEvenings(columns: readonly Columns[], wanted: Wanted): Columns[] {
  const { colourwayId, mouldId, month } = wanted;
  const isWanted = (session: Columns) => {
    if (month !== null && !dayOf(session.startedAt, session.zone).startsWith(month)) return false;
    if (colourwayId === null && mouldId === null) return true;
    return session.mould.some((mould, shot) => {
      const colour = session.colourways[session.colourway[shot] ?? -1]?.colourwayId ?? null;
      return (
        (mouldId === null || session.moulds[mould]?.mouldId === mouldId) &&
        (colourwayId === null || colour === colourwayId)
      );
    });
  };
  return columns.filter(isWanted).reverse();
}

/** The months of some instants, newest first. */
export function monthsOf(days: readonly string[]): string[] {
  return [...new Set(days.map((day) => day.slice(0, 7)))].sort().reverse();
}
