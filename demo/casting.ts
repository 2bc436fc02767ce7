import { mouldTempC } from '#calc/heat.ts';
import { pourTempC } from '#calc/pot-course.ts';
import type { Seat, Table } from '#calc/table.ts';
import { heatOf } from '#calc/warmth.ts';
import type { Result } from '#model/entry.ts';
import type { Material } from '#model/mould.ts';
import { type Chance, shotChance } from '../tests/hands/seeded.ts';
import { truths, usual } from './truths.ts';

/** What decides how one shot comes out. */
export interface Cast {
  cavities: number;
  closed: readonly number[];
  /** 0 warm to 1 cold. */
  coldness: number;
  /** Filled with the injector that fills worse. */
  isWorseInjector: boolean;
  /** A colourway that dents when opened early, and opened early. */
  isDenting: boolean;
  /** The cavity that cannot breathe; null: all can. */
  choked: number | null;
}

/** How warm the mould truly is: the product's own model, with a truth that is not quite its guess. */
export function trueTempC(table: Table, seat: Seat, at: number): number {
  const guess = heatOf(table, { ...seat, readings: [] });
  const heat = {
    ...guess,
    tauSec: guess.tauSec * usual.tauTimes,
    uptake: guess.uptake * usual.uptakeTimes,
  };
  const shots = seat.shots.map(({ filledAt, volumeMl, potIds }) => {
    const pots = table.pots.filter((pot) => potIds.includes(pot.id));
    return { at: filledAt, volumeMl, pourC: pourTempC(table, pots, filledAt) };
  });
  return mouldTempC(heat, { ambientC: table.ambientC, shots }, at);
}

/** How much of the cold is felt at a lead over the shop; other materials do not chill the plastic. */
export function coldnessOf(material: Material, aboveK: number): number {
  if (material !== 'aluminium') return 0;
  return 1 / (1 + Math.exp((aboveK - truths.cold.belowK) / truths.cold.overK));
}

/** What each cavity gives: one chance a shot for shorts and one for dents, then cavity by cavity. */
export function castResults(chance: Chance, cast: Cast): Result[] {
  const filling = cast.isWorseInjector ? truths.injector.shortShare : usual.shortShare;
  const shorts = either(filling, cast.coldness * truths.cold.shortShare);
  const short = shotChance(chance, shorts, usual.rho);
  const dents = cast.isDenting ? truths.early.dentShare : usual.dentShare;
  const dent = shotChance(chance, dents, usual.rho);
  return Array.from({ length: cast.cavities }, (_, index): Result => {
    if (cast.closed.includes(index + 1)) return 'closed';
    const own = index + 1 === cast.choked ? either(short, truths.vent.shortShare) : short;
    return cavityResult(chance, own, dent);
  });
}

function cavityResult(chance: Chance, short: number, dent: number): Result {
  if (chance() < short) return 'short';
  if (chance() < dent) return 'dent';
  let left = chance();
  for (const [defect, share] of Object.entries(usual.others)) {
    left -= share;
    if (left < 0) return defect as keyof typeof usual.others;
  }
  return 'good';
}

/** The chance that at least one of two independent things happens. */
function either(a: number, b: number): number {
  return 1 - (1 - a) * (1 - b);
}
