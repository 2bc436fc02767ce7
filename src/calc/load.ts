import { setTimeSec } from '#calc/conduction.ts';
import { wholeFrom } from '#calc/counts.ts';
import { type MouldLoad, roundLoadMl, slotDropPa, strokeMm } from '#calc/injector.ts';
import { notNegative, positive } from '#calc/range.ts';

export { fewestLoads, firstFitDecreasing, loadsBound, type Packing } from '#calc/packing.ts';
export { type PotVolume, potMl, potMlForBaits } from '#calc/pot-volume.ts';

/** An injector, what it holds, and what never comes out of it. */
export interface InjectorChoice {
  id: string;
  capacityMl: number;
  deadMl: number;
  boreMm: number;
}

/** A mould that must be full before its thinnest section freezes, with air leaving by its vents. */
export interface FillCourse {
  volumeMl: number;
  thinnestMm: number;
  wallC: number;
  pourC: number;
  /** Where plastisol stops flowing. */
  noFlowC?: number;
  diffusivityMm2PerSec?: number;
  vents: { count: number; widthMm: number; heightMm: number; lengthMm: number };
  /** What pushes the air out: about 10 cm of plastisol (derived, a working value). */
  backPressurePa?: number;
}

/** Air at about 120 °C, Pa s (from memory). */
const AIR_PA_SEC = 2.3e-5;

/**
 * The smallest injector that takes a line-up in one draw with a margin, and its stroke; `id` and
 * `strokeMm` are null when none does. Ties go to the one named first.
 * RangeError for an empty line-up or measures that cannot be.
 */
export function chosenInjector(
  injectors: readonly InjectorChoice[],
  lineUp: readonly MouldLoad[],
  options: { marginShare?: number } = {},
): { id: string | null; loadMl: number; strokeMm: number | null } {
  if (lineUp.length === 0) throw new RangeError('There is no mould in the line-up.');
  const loadMl = roundLoadMl(lineUp, options.marginShare ?? 0.1);
  let chosen: InjectorChoice | null = null;
  for (const injector of injectors) {
    const dead = notNegative('deadMl', injector.deadMl);
    const usableMl = positive('capacityMl', injector.capacityMl) - dead;
    if (usableMl < loadMl * (1 - 1e-9)) continue;
    if (chosen === null || injector.capacityMl < chosen.capacityMl) chosen = injector;
  }
  if (chosen === null) return { id: null, loadMl, strokeMm: null };
  return { id: chosen.id, loadMl, strokeMm: strokeMm(loadMl, chosen.boreMm) };
}

/**
 * Between how few and how many seconds a mould should be filled: no faster than its vents let the
 * air out (slot flow), no slower than its thinnest section stays liquid (plate, middle at `noFlowC`;
 * Infinity in a mould as hot as that). Advice: the thin part fills last.
 * RangeError for measures or temperatures that cannot be.
 */
export function fillWindowSec(course: FillCourse): {
  fastestSec: number;
  slowestSec: number;
  possible: boolean;
} {
  const { count, ...slot } = course.vents;
  const vents = wholeFrom(1, 'vents.count', count);
  const dropAtOne = slotDropPa(1, { ...slot, vents, viscosityPaSec: AIR_PA_SEC });
  const pushPa = positive('backPressurePa', course.backPressurePa ?? 1000);
  const fastestSec = positive('volumeMl', course.volumeMl) * (dropAtOne / pushPa);
  const set = setTimeSec({
    shape: 'flat',
    thicknessMm: course.thinnestMm,
    pourC: course.pourC,
    wallC: course.wallC,
    openC: course.noFlowC ?? 100,
    diffusivityMm2PerSec: course.diffusivityMm2PerSec ?? 0.08,
  });
  const slowestSec = set === 'never' ? Infinity : set;
  return { fastestSec, slowestSec, possible: fastestSec <= slowestSec };
}
