import {
  ABSOLUTE_ZERO_C,
  finite,
  notNegative,
  positive,
  temperatureC,
  zeroToOne,
} from '#calc/range.ts';

/** How strongly heat counts, and the temperature at which a minute counts as one. */
export interface DoseOptions {
  activationKJPerMol?: number;
  referenceC?: number;
}

/** One look at the pot's thermometer. */
export interface PotReading {
  atMin: number;
  tempC: number;
}

/** The heat history of some plastisol: how much, how cooked, how often heated. */
export interface PotHeat {
  massG: number;
  /** Minutes at the reference temperature that would have done the same. */
  doseMin: number;
  /** Times heated, on average over the mass. */
  meanHeats: number;
  /** Times heated, of whatever in the pot was heated most. */
  maxHeats: number;
}

/** Gas constant, J/mol K (CODATA, from memory). */
const GAS = 8.314462618;

/** PVC with common plasticisers, 160-220 °C (Krongauz, Lee, Bourassa, abstract). */
const PVC_ACTIVATION = 150;

/**
 * How many times faster plastisol ages at `tempC` than at the reference temperature (Arrhenius).
 *
 * An indicator of yellowing to compare pots by. It does not say what a pot can bear: colour and
 * smell do, and the safety data sheet.
 */
export function degradationRate(tempC: number, options: DoseOptions = {}): number {
  const activation = positive('activationKJPerMol', options.activationKJPerMol ?? PVC_ACTIVATION);
  const reference = temperatureC('referenceC', options.referenceC ?? 165) - ABSOLUTE_ZERO_C;
  const kelvin = temperatureC('tempC', tempC) - ABSOLUTE_ZERO_C;
  return Math.exp(((activation * 1000) / GAS) * (1 / reference - 1 / kelvin));
}

/**
 * Minutes at the reference temperature that age plastisol as much as the readings did.
 *
 * Temperature runs straight from reading to reading; the rate is integrated, not the temperature.
 * Readings may come in any order, two at one time make a step; fewer than two span no time and
 * give 0.
 */
export function equivalentMin(readings: readonly PotReading[], options: DoseOptions = {}): number {
  for (const reading of readings) {
    finite('atMin', reading.atMin);
    temperatureC('tempC', reading.tempC);
  }
  const inOrder = readings.toSorted((a, b) => a.atMin - b.atMin);
  let sum = 0;
  let before: PotReading | undefined;
  for (const reading of inOrder) {
    if (before !== undefined && reading.atMin > before.atMin) {
      sum += (reading.atMin - before.atMin) * meanRate(before.tempC, reading.tempC, options);
    }
    before = reading;
  }
  return sum;
}

/**
 * What comes of pouring pots together: dose and mean heats mix by mass, the most heated counts on.
 *
 * No mass at all gives an empty, unheated pot.
 */
export function blend(parts: readonly PotHeat[]): PotHeat {
  const whole = { massG: 0, doseMin: 0, meanHeats: 0, maxHeats: 0 };
  for (const part of parts) {
    const massG = checked(part).massG;
    if (massG === 0) continue;
    whole.massG += massG;
    const added = massG / whole.massG;
    whole.doseMin += (part.doseMin - whole.doseMin) * added;
    whole.meanHeats += (part.meanHeats - whole.meanHeats) * added;
    whole.maxHeats = Math.max(whole.maxHeats, part.maxHeats);
  }
  return whole;
}

/** The pot after one more heat that cost `doseMin`. */
export function heatOnce(pot: PotHeat, doseMin: number): PotHeat {
  return {
    massG: checked(pot).massG,
    doseMin: pot.doseMin + notNegative('doseMin', doseMin),
    meanHeats: pot.meanHeats + 1,
    maxHeats: pot.maxHeats + 1,
  };
}

/**
 * Mean heats of the n-th batch when every batch takes `remelt` (0..1) of the one before.
 *
 * `batches` is a whole number, or Infinity for where it settles.
 */
export function remeltMeanHeats(remelt: number, batches: number): number {
  zeroToOne('share', remelt);
  if (batches !== Infinity && !Number.isInteger(notNegative('batches', batches))) {
    throw new RangeError(`batches must be a whole number, not ${batches}.`);
  }
  return remelt === 1 ? batches : (1 - remelt ** batches) / (1 - remelt);
}

/** Mean of the rate while the temperature runs from one value to the other, by Simpson's rule. */
function meanRate(fromC: number, toC: number, options: DoseOptions): number {
  // A step of half a kelvin changes the rate by some 5 %, which Simpson follows to 1e-8.
  const steps = Math.min(10_000, Math.max(1, Math.ceil(Math.abs(toC - fromC) * 2)));
  const rateAt = (step: number) => degradationRate(fromC + ((toC - fromC) * step) / steps, options);
  let sum = 0;
  for (let step = 0; step < steps; step++) {
    sum += (rateAt(step) + 4 * rateAt(step + 0.5) + rateAt(step + 1)) / 6;
  }
  return sum / steps;
}

function checked(pot: PotHeat): PotHeat {
  notNegative('massG', pot.massG);
  notNegative('doseMin', pot.doseMin);
  notNegative('meanHeats', pot.meanHeats);
  notNegative('maxHeats', pot.maxHeats);
  return pot;
}
