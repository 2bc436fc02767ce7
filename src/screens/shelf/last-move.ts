import { moneyWords, stockWords, type Units } from '#screens/amounts.ts';
import type { TypedKind } from '#screens/shelf/move-form.ts';
import type { Jar } from '#screens/shelf/shelf-view.ts';

/** What the last movement of a kind said, field by field; what it did not say is missing. */
export interface LastMove {
  amount?: string;
  money?: string;
  lot?: string;
  note?: string;
}

/** The last movement of this kind that stands; empty: there was none. */
export function lastMove(kind: TypedKind, { material, stock }: Jar, units: Units): LastMove {
  const moved = stock.lines.flatMap(({ cause }) => ('movement' in cause ? [cause.movement] : []));
  const found = moved.findLast(({ says }) => says.kind === kind);
  if (!found) return {};
  const { says, note } = found;
  const words = (qty: number) => stockWords(qty, material.unit, units);
  return {
    ...(says.kind === 'counted' ? { amount: words(says.level) } : {}),
    ...(says.kind === 'bought' || says.kind === 'lost' ? { amount: words(says.qty) } : {}),
    ...(says.kind === 'bought' ? { money: moneyWords(says.cents) } : {}),
    ...(says.kind === 'bought' && says.lot ? { lot: says.lot } : {}),
    ...(note ? { note: note.slice(0, 80) } : {}),
  };
}
