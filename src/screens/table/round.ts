import { shotMl } from '#calc/mould-size.ts';
import type { Table } from '#calc/table.ts';

/** What a round of every mould that does not sit out takes, mL. */
export function roundMl(table: Table): number {
  return table.seats
    .filter((seat) => !seat.isSkipped)
    .reduce((sum, seat) => sum + shotMl(seat.mould), 0);
}
