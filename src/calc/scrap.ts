import { partMlOf } from '#calc/mould-size.ts';
import { plastisolGPerMl } from '#calc/pot-course.ts';
import type { Table } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';

/** What the bad baits of a session weigh together. */
export interface Scrap {
  /** Worked out from those marked bad, g. */
  massG: number;
  bad: number;
  /** False: a mould among them has no measured bait, and its volume was assumed. */
  isMeasured: boolean;
  /** What the scale showed, g; null: nobody weighed them. */
  weighedG: number | null;
}

/** The bad baits of a session, g, from the bait volume of each mould; sprues are not in it. */
export function scrapOf(table: Pick<Table, 'allSeats' | 'scrapG'>): Scrap {
  const scrap: Scrap = { massG: 0, bad: 0, isMeasured: true, weighedG: table.scrapG };
  for (const { mould, shots } of table.allSeats) {
    const { bad } = countOf(shots.flatMap((shot) => shot.results));
    if (bad === 0) continue;
    scrap.bad += bad;
    scrap.massG += bad * partMlOf(mould) * plastisolGPerMl;
    if (mould.partMl === null) scrap.isMeasured = false;
  }
  return scrap;
}

/** The scrap of several sessions together; weighed only where each that had any was. */
export function scrapTogether(scraps: readonly Scrap[]): Scrap {
  const some = scraps.filter(({ bad, weighedG }) => bad > 0 || weighedG !== null);
  const isWeighed = some.length > 0 && some.every(({ weighedG }) => weighedG !== null);
  return {
    massG: scraps.reduce((sum, { massG }) => sum + massG, 0),
    bad: scraps.reduce((sum, { bad }) => sum + bad, 0),
    isMeasured: scraps.every(({ isMeasured }) => isMeasured),
    weighedG: isWeighed ? some.reduce((sum, { weighedG }) => sum + (weighedG ?? 0), 0) : null,
  };
}
