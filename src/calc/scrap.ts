import { partMlOf } from '#calc/mould-size.ts';
import { plastisolGPerMl } from '#calc/pot-course.ts';
import type { Table } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';

/** What the bad baits of a session weigh together. */
export interface Scrap {
  massG: number;
  bad: number;
  /** False: a mould among them has no measured bait, and its volume was assumed. */
  isMeasured: boolean;
}

/** The bad baits of a session, g, from the bait volume of each mould; sprues are not in it. */
export function scrapOf(table: Table): Scrap {
  const scrap: Scrap = { massG: 0, bad: 0, isMeasured: true };
  for (const { mould, shots } of table.allSeats) {
    const { bad } = countOf(shots.flatMap((shot) => shot.results));
    if (bad === 0) continue;
    scrap.bad += bad;
    scrap.massG += bad * partMlOf(mould) * plastisolGPerMl;
    if (mould.partMl === null) scrap.isMeasured = false;
  }
  return scrap;
}

/** The scrap of several sessions together. */
export function scrapTogether(scraps: readonly Scrap[]): Scrap {
  return {
    massG: scraps.reduce((sum, { massG }) => sum + massG, 0),
    bad: scraps.reduce((sum, { bad }) => sum + bad, 0),
    isMeasured: scraps.every(({ isMeasured }) => isMeasured),
  };
}
