import { finite, notNegative, positive, temperatureC } from '#calc/range.ts';

/** A mould as one lump of heat. */
export interface MouldHeat {
  capacityJPerK: number;
  /** Time in which an idle mould falls to 37 % of its lead over the room. */
  tauSec: number;
  /** Share of a shot's heat that stays in the mould; 1 when the part leaves as warm as the mould. */
  uptake: number;
  /** Nobody gave the uptake, so that calibration starts from its own guess. */
  uptakeIsAssumed?: true;
}

/** One shot into the mould. */
export interface HeatShot {
  at: number;
  volumeMl: number;
  pourC: number;
}

/** What has happened to a mould. */
export interface HeatCourse {
  ambientC: number;
  /** Mould temperature at `startAt`; the room's unless given. */
  startC?: number;
  /** The first shot unless given; shots before it are held to be part of `startC`. */
  startAt?: number;
  /** In any order. */
  shots: readonly HeatShot[];
}

/** A course that was checked: gaps filled, shots in order, those of one stamp made one. */
export interface CheckedCourse {
  ambientC: number;
  startC: number;
  startAt: number;
  shots: readonly HeatShot[];
}

/** Plastisol of 1050 kg/m3 (range of flexible PVC: pvc.org) and 1800 J/kgK (from memory). */
const PLASTISOL_J_PER_ML_K = 1.05e-3 * 1800;

/** Share of the way to the pour temperature that one shot moves the mould. */
export function shotShare(heat: MouldHeat, volumeMl: number): number {
  const capacity = positive('capacityJPerK', heat.capacityJPerK);
  const given =
    notNegative('uptake', heat.uptake) * notNegative('volumeMl', volumeMl) * PLASTISOL_J_PER_ML_K;
  return given / (capacity + given);
}

/** The course in order. RangeError for a value that is no number or no temperature. */
export function checkedCourse(course: HeatCourse): CheckedCourse {
  const ambientC = temperatureC('ambientC', course.ambientC);
  const startC = temperatureC('startC', course.startC ?? ambientC);
  const shots = merged(course.shots);
  // Without a start and without a shot nothing runs yet: the mould stays as it started.
  const startAt =
    course.startAt === undefined
      ? (shots[0]?.at ?? Number.POSITIVE_INFINITY)
      : finite('startAt', course.startAt);
  return { ambientC, startC, startAt, shots: shots.filter((shot) => shot.at >= startAt) };
}

/**
 * Mould temperature at one instant of a checked course.
 *
 * A shot stamped exactly `at` counts if `stampedHasHappened`. Before its start the mould is as it
 * started.
 */
export function courseTempC(
  heat: MouldHeat,
  course: CheckedCourse,
  at: number,
  stampedHasHappened: boolean,
): number {
  let tempC = course.startC;
  let since = course.startAt;
  for (const shot of course.shots) {
    if (stampedHasHappened ? shot.at > at : shot.at >= at) break;
    tempC = idledC(heat, course.ambientC, tempC, shot.at - since);
    tempC += shotShare(heat, shot.volumeMl) * (shot.pourC - tempC);
    since = shot.at;
  }
  return idledC(heat, course.ambientC, tempC, Math.max(0, at - since));
}

function idledC(heat: MouldHeat, ambientC: number, fromC: number, ms: number): number {
  return ambientC + (fromC - ambientC) * Math.exp(-ms / 1000 / heat.tauSec);
}

/** Shots in order of time; those of one stamp are one, poured at their mean temperature by volume. */
function merged(shots: readonly HeatShot[]): HeatShot[] {
  const inOrder = shots.toSorted(
    (a, b) => a.at - b.at || a.volumeMl - b.volumeMl || a.pourC - b.pourC,
  );
  const whole: HeatShot[] = [];
  for (const { at, volumeMl, pourC } of inOrder) {
    const last = whole.at(-1);
    finite('at', at);
    notNegative('volumeMl', volumeMl);
    temperatureC('pourC', pourC);
    if (last?.at !== at) whole.push({ at, volumeMl, pourC });
    else if (volumeMl > 0) {
      last.volumeMl += volumeMl;
      last.pourC += ((pourC - last.pourC) * volumeMl) / last.volumeMl;
    }
  }
  return whole;
}
