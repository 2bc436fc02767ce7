import { isBetweenLayers, type Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';

/** The pots that the next pour comes from: of a hand pour its own, else those of the round. */
export function nextPots(table: Table): readonly Pot[] {
  const waiting = table.seats.find(isBetweenLayers);
  const isAllByHand = table.seats.length > 0 && table.seats.every(({ hand }) => hand !== null);
  const seat = waiting ?? (isAllByHand ? table.seats.find(({ hand }) => hand?.pot) : undefined);
  return seat?.hand?.pot ? [seat.hand.pot] : table.potsDrawn;
}
