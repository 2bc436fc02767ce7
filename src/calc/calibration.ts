import type { HeatCourse, MouldHeat } from '#calc/heat-course.ts';
import { type CheckedCourse, checkedCourse, courseTempC } from '#calc/heat-course.ts';
import { fittedPair, type Pair } from '#calc/least-squares.ts';
import { finite, notNegative, positive, temperatureC } from '#calc/range.ts';

/** One look at a mould with a thermometer. */
export interface MouldReading {
  at: number;
  tempC: number;
}

/** The lump that calibration starts from; it need not say an uptake. */
export type HeatPrior = Omit<MouldHeat, 'uptake'> & { uptake?: number };

/** What the readings say about a mould. */
export interface CalibratedHeat {
  tauSec: number;
  uptake: number;
  /** Standard error of the logarithm of `tauSec`, so a share of it. */
  seLnTau: number;
  seUptake: number;
  /** Root mean square of what the fit is off the readings; 0 without readings. */
  rmsK: number;
}

/** Beliefs before the first reading: uptake, the sd of ln tau and uptake, a thermometer's sd. */
const PRIOR = { uptake: 0.9, lnTauSd: 0.45, uptakeSd: 0.15, readingSdK: 1 };

/**
 * Time constant and uptake of a mould from any number of readings of its temperature.
 *
 * Least squares with priors about `heat` (its uptake 0.9 if nobody gave one), so that no reading
 * returns the prior and odd ones cannot run away. A reading stamped with a shot's time was taken
 * before the shot; the order of readings does not matter.
 */
export function calibrate(
  heat: HeatPrior,
  course: HeatCourse,
  readings: readonly MouldReading[],
): CalibratedHeat {
  const capacityJPerK = positive('capacityJPerK', heat.capacityJPerK);
  const given = heat.uptakeIsAssumed ? PRIOR.uptake : (heat.uptake ?? PRIOR.uptake);
  const prior: Pair = [Math.log(positive('tauSec', heat.tauSec)), notNegative('uptake', given)];
  const offK = misses(capacityJPerK, checkedCourse(course), readings);
  const { best, standardError } = fittedPair({
    start: prior,
    lowest: [prior[0] - 6 * PRIOR.lnTauSd, Math.min(0.05, prior[1])],
    highest: [prior[0] + 6 * PRIOR.lnTauSd, Math.max(2, prior[1])],
    residuals: (guess) => [
      (guess[0] - prior[0]) / PRIOR.lnTauSd,
      (guess[1] - prior[1]) / PRIOR.uptakeSd,
      ...offK(guess).map((off) => off / PRIOR.readingSdK),
    ],
  });
  const squares = offK(best).reduce((sum, off) => sum + off ** 2, 0);
  return {
    tauSec: Math.exp(best[0]),
    uptake: best[1],
    seLnTau: standardError[0],
    seUptake: standardError[1],
    rmsK: Math.sqrt(squares / Math.max(1, readings.length)),
  };
}

/** What a guess of (ln tau, uptake) is off each reading, the readings in order of time. */
function misses(
  capacityJPerK: number,
  course: CheckedCourse,
  readings: readonly MouldReading[],
): (guess: Pair) => number[] {
  for (const { at, tempC } of readings) {
    finite('at', at);
    temperatureC('tempC', tempC);
  }
  const inOrder = readings.toSorted((a, b) => a.at - b.at || a.tempC - b.tempC);
  return ([lnTau, uptake]) => {
    const heat = { capacityJPerK, tauSec: Math.exp(lnTau), uptake: Math.max(0, uptake) };
    return inOrder.map(({ at, tempC }) => courseTempC(heat, course, at, false) - tempC);
  };
}
