import { shotMl } from '#calc/mould-size.ts';
import type { Pour } from '#calc/pot-runs.ts';
import type { Table } from '#calc/table.ts';

/** What a round of every mould that does not sit out takes, mould by mould, from each of so many pots that share it. */
export function roundPours(table: Table, pots = 1): Pour[] {
  return table.seats
    .filter((seat) => !seat.isSkipped)
    .map(({ mould }) => ({ mouldId: mould.mouldId, shouldMl: shotMl(mould) / pots }));
}
