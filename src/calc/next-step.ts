import {
  isBetweenLayers,
  opensAt,
  type Seat,
  stageAt,
  type Table,
  waitingShot,
} from '#calc/table.ts';
import type { Instant } from '#model/schemas.ts';

/** What the main key means now, and the moulds that its press touches. */
export type NextStep =
  | { means: 'good'; seats: readonly Seat[] }
  | { means: 'filled'; seats: readonly Seat[] }
  /** The next layer of a hand pour. */
  | { means: 'layer'; seats: readonly Seat[] }
  /** Nothing to press: the first mould to open is named. */
  | { means: 'setting'; seats: readonly Seat[] }
  /** Every mould sits out. */
  | { means: 'none'; seats: readonly Seat[] };

/**
 * The next right thing at the table: open moulds beat those that wait for a layer, which will not
 * wait long; those beat empty ones, and those beat setting ones. One press fills only what is poured
 * from the same pots.
 */
export function nextStepAt(table: Table, now: Instant): NextStep {
  const seatsIn = (stage: string) => table.seats.filter((seat) => stageAt(seat, now) === stage);
  const open = seatsIn('open');
  if (open.length > 0) return { means: 'good', seats: open };
  const layers = fromOnePot(table.seats.filter(isBetweenLayers));
  if (layers.length > 0) return { means: 'layer', seats: layers };
  const empty = fromOnePot(seatsIn('empty'));
  if (empty.length > 0) return { means: 'filled', seats: empty };
  const setting = seatsIn('setting').toSorted((a, b) => readyAt(a) - readyAt(b));
  return setting.length > 0
    ? { means: 'setting', seats: setting.slice(0, 1) }
    : { means: 'none', seats: [] };
}

/** Of these moulds, the first and those that are poured like it: injected, or by hand from the same pot. */
function fromOnePot(seats: readonly Seat[]): Seat[] {
  const potOf = ({ hand }: Seat) => (hand ? `by hand ${hand.pot?.id ?? ''}` : 'injected');
  return seats.filter((seat) => potOf(seat) === potOf(seats[0] ?? seat));
}

function readyAt(seat: Seat): Instant {
  const shot = waitingShot(seat);
  return shot ? opensAt(shot) : 0;
}
