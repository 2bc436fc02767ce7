import type { Stock } from '#calc/stock-level.ts';
import type { Movement } from '#model/movement.ts';
import type { Instant } from '#model/schemas.ts';

/** The container in use: when it was opened, and its lot; empty: none was told. */
export interface Opened {
  at: Instant;
  lot: string;
}

/** The container that was opened last and not taken back; null: none was told. */
export function openedOf(stock: Pick<Stock, 'lines'>): Opened | null {
  const found = movesOf(stock).findLast(({ says }) => says.kind === 'opened');
  return found?.says.kind === 'opened' ? { at: found.at, lot: found.says.lot } : null;
}

/** The lot that was bought last; empty: it had none. */
export function newestLot(stock: Pick<Stock, 'lines'>): string {
  const found = movesOf(stock).findLast(({ says }) => says.kind === 'bought');
  return found?.says.kind === 'bought' ? found.says.lot : '';
}

function movesOf({ lines }: Pick<Stock, 'lines'>): Movement[] {
  return lines.flatMap(({ cause }) => ('movement' in cause ? [cause.movement] : []));
}
