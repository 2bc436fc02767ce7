import { notNegative, positive } from '#calc/range.ts';

/** A round gate or sprue and what flows through it. */
export interface RoundGate {
  /** Bore of the gate. */
  gateMm: number;
  lengthMm: number;
  viscosityPaSec: number;
}

/** A flat vent or gate, and how many such share the flow. */
export interface Slot {
  widthMm: number;
  heightMm: number;
  lengthMm: number;
  viscosityPaSec: number;
  vents?: number;
}

/** What one fill of a mould takes. */
export interface MouldLoad {
  cavities: number;
  partMl: number;
  sprueMl: number;
}

/** Volume that one mm of travel pushes out of an injector of this bore. */
export function mlPerMm(boreMm: number): number {
  return (Math.PI * positive('boreMm', boreMm) ** 2) / 4 / 1000;
}

/** Travel of the plunger for a volume. */
export function strokeMm(volumeMl: number, boreMm: number): number {
  return notNegative('volumeMl', volumeMl) / mlPerMm(boreMm);
}

/** Shear rate at the wall of a round gate, 4 Q / (pi r^3), for a Newtonian liquid. */
export function gateShearPerSec(flowMlPerSec: number, gateMm: number): number {
  const radiusMm = positive('gateMm', gateMm) / 2;
  return (4000 * notNegative('flowMlPerSec', flowMlPerSec)) / (Math.PI * radiusMm ** 3);
}

/** Pressure lost in a round gate, 8 mu L Q / (pi r^4), for slow Newtonian flow. */
export function gateDropPa(flowMlPerSec: number, gate: RoundGate): number {
  const radiusMm = positive('gateMm', gate.gateMm) / 2;
  const drag =
    positive('viscosityPaSec', gate.viscosityPaSec) * notNegative('lengthMm', gate.lengthMm);
  return (8000 * drag * notNegative('flowMlPerSec', flowMlPerSec)) / (Math.PI * radiusMm ** 4);
}

/** Pressure lost in equal flat vents that share the flow, 12 mu L Q / (w h^3) each. */
export function slotDropPa(flowMlPerSec: number, slot: Slot): number {
  const drag =
    positive('viscosityPaSec', slot.viscosityPaSec) * notNegative('lengthMm', slot.lengthMm);
  const room = positive('widthMm', slot.widthMm) * positive('heightMm', slot.heightMm) ** 3;
  const flow = notNegative('flowMlPerSec', flowMlPerSec) / positive('vents', slot.vents ?? 1);
  return (12_000 * drag * flow) / room;
}

/** Volume to draw for one fill of each mould, with a margin (a tenth: common practice, no source). */
export function roundLoadMl(moulds: readonly MouldLoad[], marginShare = 0.1): number {
  let sum = 0;
  for (const mould of moulds) {
    const parts = notNegative('cavities', mould.cavities) * notNegative('partMl', mould.partMl);
    sum += parts + notNegative('sprueMl', mould.sprueMl);
  }
  return sum * (1 + notNegative('marginShare', marginShare));
}

/**
 * The smallest injector that holds the load in one draw, or null if none does.
 *
 * Smallest, as a smaller bore fills more slowly and lets the air out (common practice, no source).
 */
export function smallestInjector<T extends { capacityMl: number }>(
  injectors: readonly T[],
  loadMl: number,
): T | null {
  notNegative('loadMl', loadMl);
  let smallest: T | null = null;
  for (const injector of injectors) {
    if (positive('capacityMl', injector.capacityMl) < loadMl) continue;
    if (smallest === null || injector.capacityMl < smallest.capacityMl) smallest = injector;
  }
  return smallest;
}
