import {
  checkedCourse,
  courseTempC,
  type HeatCourse,
  type MouldHeat,
  shotShare,
} from '#calc/heat-course.ts';
import { finite, notNegative, positive, temperatureC, zeroToOne } from '#calc/range.ts';

export {
  type CalibratedHeat,
  calibrate,
  type HeatPrior,
  type MouldReading,
} from '#calc/calibration.ts';
export { type HeatCourse, type HeatShot, type MouldHeat, shotShare } from '#calc/heat-course.ts';
export { learnWarmAbove, type WarmAbove, type WarmTrial } from '#calc/warm-above.ts';

/** What a mould is made of and how it loses heat. */
export interface MouldBody {
  /** The metal that warms together: both halves and the clamps that touch them. */
  massKg: number;
  cpJPerKgK?: number;
  lossWPerK?: number;
  /** Share of a shot's heat that stays in the mould; 1 unless given. */
  uptake?: number;
}

/** A mould poured at a steady beat. */
export interface HeatCycle {
  ambientC: number;
  pourC: number;
  volumeMl: number;
  cycleSec: number;
}

/** Aluminium 6061 (alloy data sheets). */
const ALUMINIUM_J_PER_KG_K = 896;

/** A block of 200 x 120 x 40 mm in still air (derived; 0.4-2 in practice, so calibrate). */
const LOSS_W_PER_K = 0.8;

/** The lump of a mould. RangeError for a mass, heat or loss that is not above 0. */
export function mouldHeat(body: MouldBody): MouldHeat {
  const cp = positive('cpJPerKgK', body.cpJPerKgK ?? ALUMINIUM_J_PER_KG_K);
  const capacityJPerK = positive('massKg', body.massKg) * cp;
  const tauSec = capacityJPerK / positive('lossWPerK', body.lossWPerK ?? LOSS_W_PER_K);
  if (body.uptake === undefined) {
    return { capacityJPerK, tauSec, uptake: 1, uptakeIsAssumed: true };
  }
  return { capacityJPerK, tauSec, uptake: notNegative('uptake', body.uptake) };
}

/**
 * Mould temperature at one instant.
 *
 * The mould is one lump: between shots it falls towards the room, a shot moves it towards the pour
 * temperature at once. A shot stamped exactly `at` has happened; shots with one stamp are one shot.
 * Holds for metal; for silicone or stone it is a surface index that has to be calibrated.
 */
export function mouldTempC(heat: MouldHeat, course: HeatCourse, at: number): number {
  positive('tauSec', heat.tauSec);
  return courseTempC(heat, checkedCourse(course), finite('at', at), true);
}

/** Mould temperature just before and just after each shot once a steady beat has settled. */
export function steadyTempC(heat: MouldHeat, cycle: HeatCycle): { before: number; after: number } {
  const { beforeK, afterK } = beatOf(heat, cycle);
  return { before: cycle.ambientC + beforeK, after: cycle.ambientC + afterK };
}

/**
 * Shots until a mould from room temperature has come the `share` (0..1) of the way to steady.
 *
 * Infinity where it never settles: for a share of 1, or for shots that give no heat.
 */
export function shotsToReach(heat: MouldHeat, cycle: HeatCycle & { share: number }): number {
  const left = 1 - zeroToOne('share', cycle.share);
  return left === 1 ? 0 : beatsUntil(left, beatOf(heat, cycle).closed);
}

/** Shots until the mould stands `warmAboveK` above the room before the next; 'never' if too slow. */
export function shotsUntilWarm(
  heat: MouldHeat,
  cycle: HeatCycle & { warmAboveK: number; startC?: number },
): number | 'never' {
  const { beforeK, closed } = beatOf(heat, cycle);
  const warmK = notNegative('warmAboveK', cycle.warmAboveK);
  const startK = temperatureC('startC', cycle.startC ?? cycle.ambientC) - cycle.ambientC;
  if (startK >= warmK) return 0;
  if (beforeK <= warmK) return 'never';
  return beatsUntil((beforeK - warmK) / (beforeK - startK), closed);
}

/** Seconds until an idle mould is no longer `warmAboveK` above the room; 0 if it is not now. */
export function secUntilCold(
  heat: MouldHeat,
  idle: { aboveAmbientK: number; warmAboveK: number },
): number {
  const aboveK = finite('aboveAmbientK', idle.aboveAmbientK);
  const warmK = notNegative('warmAboveK', idle.warmAboveK);
  return aboveK <= warmK ? 0 : positive('tauSec', heat.tauSec) * Math.log(aboveK / warmK);
}

/**
 * Shortest beat that leaves the mould at `limitC` or below before each shot.
 *
 * 0 when no beat could make it hotter, Infinity when the room alone is as hot.
 */
export function shortestCycleSec(
  heat: MouldHeat,
  cycle: Omit<HeatCycle, 'cycleSec'> & { limitC: number },
): number {
  const ambientC = temperatureC('ambientC', cycle.ambientC);
  const pourK = temperatureC('pourC', cycle.pourC) - ambientC;
  const limitK = temperatureC('limitC', cycle.limitC) - ambientC;
  const gain = shotShare(heat, cycle.volumeMl);
  if (limitK >= pourK) return 0;
  if (limitK <= 0) return Infinity;
  return positive('tauSec', heat.tauSec) * Math.log1p((gain * (pourK - limitK)) / limitK);
}

/** One settled beat: lead over the room before and after the shot, and what a beat forgets. */
interface Beat {
  beforeK: number;
  afterK: number;
  /** Share of the distance to the settled lead that each beat closes. */
  closed: number;
}

function beatOf(heat: MouldHeat, cycle: HeatCycle): Beat {
  const pourK = temperatureC('pourC', cycle.pourC) - temperatureC('ambientC', cycle.ambientC);
  const beats = notNegative('cycleSec', cycle.cycleSec) / positive('tauSec', heat.tauSec);
  const gain = shotShare(heat, cycle.volumeMl);
  const kept = Math.exp(-beats);
  const closed = Math.min(1, -Math.expm1(-beats) + kept * gain);
  // Shots without heat at no distance: nothing ever moves.
  const afterK = closed === 0 ? 0 : (gain * pourK) / closed;
  return { beforeK: kept * afterK, afterK, closed };
}

/** Beats until no more than `left` of the distance is left; a hair under a whole beat is that beat. */
function beatsUntil(left: number, closed: number): number {
  if (left <= 0) return Infinity;
  return Math.max(1, Math.ceil(Math.log(left) / Math.log1p(-closed) - 1e-9));
}
