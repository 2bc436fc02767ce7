import { useState } from 'preact/hooks';
import { type Seat, type Shot, type Table, waitingShot } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import type { Draft } from '#model/draft.ts';
import type { Result, ShotId } from '#model/entry.ts';
import { evenResults } from '#screens/table/acts.ts';
import { withClosed } from '#screens/table/marks.ts';
import { keepDraft } from '#store/drafts.ts';

/** The cavity map that is open, and half-made marks of every shot. */
export interface Marks {
  open: { seat: Seat; shot: Shot; last: Shot | null; results: readonly Result[] } | null;
  halfMade: (shotId: ShotId) => readonly Result[] | null;
  openMap: (shotId: ShotId) => void;
  closeMap: () => void;
  keep: (shotId: ShotId, results: readonly Result[]) => void;
  /** Keeps marks and opens their map. */
  keepOpen: (shotId: ShotId, results: readonly Result[]) => void;
  drop: (shotId: ShotId) => void;
}

/**
 * What the hand is marking. It lives here while the hand is busy and is stored at every tap, so that
 * half-made marks survive Back, sleep and a killed browser.
 */
export function useMarks(table: Table, stored: Draft): Marks {
  const { book } = useShop();
  const [draft, setDraft] = useState(stored);
  const change = (next: Draft) => {
    setDraft(next);
    keepDraft(book, next).catch(() => {
      // A draft that cannot be stored is still in hand; the log itself says when nothing is saved.
    });
  };
  const others = (shotId: ShotId) => draft.marks.filter((mark) => mark.shotId !== shotId);
  const halfMade = (shotId: ShotId) =>
    draft.marks.find((mark) => mark.shotId === shotId)?.results ?? null;
  return {
    open: openOf(table, draft, halfMade),
    halfMade,
    openMap: (shotId) => change({ ...draft, openShotId: shotId }),
    closeMap: () => change({ ...draft, openShotId: null }),
    keep: (shotId, results) =>
      change({ ...draft, marks: [...others(shotId), { shotId, results: [...results] }] }),
    keepOpen: (shotId, results) =>
      change({
        ...draft,
        marks: [...others(shotId), { shotId, results: [...results] }],
        openShotId: shotId,
      }),
    drop: (shotId) =>
      change({
        ...draft,
        marks: others(shotId),
        openShotId: draft.openShotId === shotId ? null : draft.openShotId,
      }),
  };
}

function openOf(
  table: Table,
  draft: Draft,
  halfMade: (shotId: ShotId) => readonly Result[] | null,
): Marks['open'] {
  const shot = table.shots.find(({ id }) => id === draft.openShotId);
  const seat = table.allSeats.find(({ mould }) => mould.mouldId === shot?.mouldId);
  if (!shot || !seat) return null;
  const begun = halfMade(shot.id) ?? firstMarks(seat, shot);
  const last = seat.shots.findLast(
    (other) => other.number < shot.number && other.loggedAt !== null,
  );
  return { seat, shot, last: last ?? null, results: withClosed(begun, seat.mould.closed) };
}

/** A shot that is being opened starts with all good; one that was logged starts as it was logged. */
function firstMarks(seat: Seat, shot: Shot): readonly Result[] {
  return waitingShot(seat)?.id === shot.id ? evenResults(seat, 'good') : shot.results;
}
