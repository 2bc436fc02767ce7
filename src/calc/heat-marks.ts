import { heatNumberAt } from '#calc/pot-course.ts';
import type { Table } from '#calc/table.ts';
import type { PotId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';

/** One heat of one pot. */
export interface HeatMark {
  potId: PotId;
  pot: string;
  at: Instant;
  /** Counted with the heats the material had before. */
  heat: number;
}

/** Every heat of a session, the one it was mixed in first, in the order of the clock. */
export function heatMarks(table: Table): HeatMark[] {
  return table.pots
    .flatMap((pot) =>
      pot.course
        .filter((event) => event.kind === 'heated')
        .map(({ at }) => ({
          potId: pot.id,
          pot: pot.name,
          at,
          heat: Math.round(heatNumberAt(pot, at)),
        })),
    )
    .sort((a, b) => a.at - b.at);
}
