import { partsAt } from '#calc/parts.ts';
import type { Table } from '#calc/table.ts';

/**
 * Whether the line before the next fill has its place: as long as parts or an injector are at the
 * table, or the session was begun with something to ask, so that nothing moves.
 */
export function hasHintLine(table: Table, asks: readonly string[]): boolean {
  return asks.length > 0 || table.injector !== null || partsAt(table.seats, new Map()).length > 0;
}
