import type { Standing } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import type { Shot } from '#calc/table.ts';
import { type Pot, potsOf } from '#calc/table-pots.ts';
import type { PotId, ShotId } from '#model/entry.ts';
import type { MouldId } from '#model/mould.ts';

/** What the shots of one mould should take from a pot, mL: cavities, sprue, and nothing beside. */
export interface Pour {
  mouldId: MouldId;
  shouldMl: number;
}

/** One pot of which it is known what was left: what went in, and what its shots should have taken. */
export interface PotRun {
  inMl: number;
  leftMl: number;
  pours: readonly Pour[];
}

/** The pots of a session whose left-over was told, in the order of mixing. */
export function potRunsOf(lines: readonly Standing[]): PotRun[] {
  const left = leftOf(lines);
  return potsOf(lines).flatMap(({ id, course }) => {
    const leftMl = left.get(id);
    if (leftMl === undefined) return [];
    const inMl = course.reduce((sum, one) => sum + (one.kind === 'filled' ? one.volumeMl : 0), 0);
    return [{ inMl, leftMl, pours: poursOf(lines, id) }];
  });
}

/** What was left in each pot when it was emptied, mL, for those of which somebody told. */
export function leftOf(lines: readonly Standing[]): Map<PotId, number> {
  const left = new Map<PotId, number>();
  for (const { said } of all(lines, 'pot-emptied')) {
    if (typeof said.leftMl === 'number') left.set(said.potId, said.leftMl);
  }
  return left;
}

/** What the shots of a pot should have taken so far, as the table knows them. */
export function pouredFrom(pot: Pot, shots: readonly Shot[]): Pour[] {
  return pot.course.flatMap((event) => {
    if (event.kind !== 'drawn') return [];
    const own = shots.filter(({ id }) => event.shotIds.includes(id));
    const wholeMl = own.reduce((sum, { volumeMl }) => sum + volumeMl, 0);
    return own.map(({ mouldId, volumeMl }) => ({
      mouldId,
      shouldMl: wholeMl === 0 ? 0 : (event.volumeMl * volumeMl) / wholeMl,
    }));
  });
}

function poursOf(lines: readonly Standing[], potId: PotId): Pour[] {
  const mouldOf = new Map<ShotId, MouldId>();
  const should = new Map<MouldId, number>();
  const take = (mouldId: MouldId, ml: number) =>
    should.set(mouldId, (should.get(mouldId) ?? 0) + ml);
  for (const { said } of all(lines, 'filled')) {
    const isFrom = said.potIds.includes(potId);
    for (const { shotId, mouldId, volumeMl } of said.shots) {
      mouldOf.set(shotId, mouldId);
      if (isFrom) take(mouldId, volumeMl / said.potIds.length);
    }
  }
  for (const { said } of all(lines, 'layer-poured')) {
    if (said.potId !== potId) continue;
    for (const { shotId, volumeMl } of said.shots) {
      const mouldId = mouldOf.get(shotId);
      // A layer of a fill that was taken back was poured into nothing.
      if (mouldId) take(mouldId, volumeMl);
    }
  }
  return [...should].map(([mouldId, shouldMl]) => ({ mouldId, shouldMl }));
}
