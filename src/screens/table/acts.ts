import { cavityCount } from '#calc/cavity-layout.ts';
import { shotMl } from '#calc/mould-size.ts';
import { setClockAt } from '#calc/set-clock.ts';
import { type Seat, type Shot, type Table, waitingShot } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import type { Result, Said, SaidOf, ShotId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { freshId } from '#store/book.ts';

/**
 * What is said when these moulds are filled from one load: every clock starts, and the pots are drawn
 * from that the round draws from. Of a hand pour it is the first layer, from its own pot.
 */
export function filledSaid(
  table: Table,
  seats: readonly Seat[],
  at: Instant,
  clocks: 'with-clock' | 'no-clock' = 'with-clock',
): SaidOf<'filled'> {
  return {
    kind: 'filled',
    shots: seats.map((seat) => {
      const wholeMl = Math.max(0.1, shotMl(seat.mould));
      const volumeMl = wholeMl / (seat.hand?.planned ?? 1);
      const { setSec } = setClockAt(table, seat, wholeMl, at);
      return {
        shotId: freshId<ShotId>(at),
        mouldId: seat.mould.mouldId,
        volumeMl,
        closed: [...seat.mould.closed],
        setSec: clocks === 'no-clock' ? null : setSec,
      };
    }),
    potIds: potsFor(table, seats[0]).map((pot) => pot.id),
    injectorId: table.injector?.injectorId ?? null,
  };
}

/** What is said when one more layer is poured into these moulds; null: there is no pot for it. */
export function layerSaid(seats: readonly Seat[]): Said | null {
  const pot = seats[0]?.hand?.pot;
  if (!pot) return null;
  const shots = seats.flatMap((seat) => {
    const shot = waitingShot(seat);
    const volumeMl = Math.max(0.1, shotMl(seat.mould)) / (seat.hand?.planned ?? 1);
    return shot ? [{ shotId: shot.id, volumeMl }] : [];
  });
  return { kind: 'layer-poured', potId: pot.id, shots };
}

function potsFor(table: Table, seat: Seat | undefined): readonly Pot[] {
  if (!seat?.hand) return table.potsDrawn;
  return seat.hand.pot ? [seat.hand.pot] : [];
}

/** What is said when every working cavity of the waiting shots gave the same. */
export function allSaid(seats: readonly Seat[], result: 'good' | 'not-checked'): Said | null {
  const shots = seats.flatMap((seat) => {
    const shot = waitingShot(seat);
    return shot ? [{ shotId: shot.id, results: evenResults(seat, result) }] : [];
  });
  return shots.length > 0 ? { kind: 'opened', shots } : null;
}

/** One result for every cavity that works now. */
export function evenResults(seat: Seat, result: 'good' | 'not-checked'): Result[] {
  return Array.from({ length: cavityCount(seat.mould.layout) }, (_, index) =>
    seat.mould.closed.includes(index + 1) ? 'closed' : result,
  );
}

/** What is said when a shot's marks are saved. */
export function markedSaid(shot: Shot, results: readonly Result[]): Said {
  return { kind: 'opened', shots: [{ shotId: shot.id, results: [...results] }] };
}
