import { partsAt } from '#calc/parts.ts';
import type { Table } from '#calc/table.ts';

/** Whether the line before the next fill has its place: as long as parts or an injector are at the table, so that nothing moves. */
export function hasHintLine(table: Table): boolean {
  return table.injector !== null || partsAt(table.seats, new Map()).length > 0;
}
