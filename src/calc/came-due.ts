import { opensAt, type Seat, type Table, waitingShot } from '#calc/table.ts';
import type { Instant } from '#model/schemas.ts';

/** A mould whose clock ran out and that still waits. */
export interface CameDue {
  seat: Seat;
  at: Instant;
}

/**
 * Moulds whose clocks ran out after `from` and not later than `to`, and that nobody has logged; the
 * one that waits longest first. A clock that was ended by hand, or none, surprises nobody.
 */
export function cameDue(table: Table, from: Instant, to: Instant): CameDue[] {
  return table.seats
    .flatMap((seat): CameDue[] => {
      const shot = waitingShot(seat);
      if (!shot || shot.setSec === null || shot.clockStoppedAt !== null) return [];
      const at = opensAt(shot);
      return at > from && at <= to ? [{ seat, at }] : [];
    })
    .toSorted((a, b) => a.at - b.at);
}
