import { blend, equivalentMin, heatOnce, type PotHeat } from '#calc/pot.ts';
import type { Table } from '#calc/table.ts';
import type { Pot, PotEvent } from '#calc/table-pots.ts';
import type { Instant } from '#model/schemas.ts';

/** Density of soft fused plastisol, g/mL (methods-heat section 1). */
export const plastisolGPerMl = 1.05;

/** What is in a pot at one instant and what it has been through. */
export interface PotState {
  volumeMl: number;
  /** Heats of whatever was heated most, and on average over the mass. */
  maxHeats: number;
  meanHeats: number;
  lastHeatedAt: Instant;
  /** Minutes at pouring temperature: from each heat to the last shot or reading of that heat. */
  hotMin: number;
  /** The same as minutes at 165 °C that would have aged it as much. To compare pots by, not a limit. */
  doseMin: number;
  /** The last thermometer reading; null: none. */
  readC: number | null;
}

/** The pot at one instant. `pourC` stands in for the temperature until there is a reading. */
export function potStateAt(pot: Pot, pourC: number, at: Instant): PotState {
  let heat: PotHeat = { massG: 0, doseMin: 0, meanHeats: 0, maxHeats: 0 };
  let mark = pot.mixedAt;
  let readC: number | null = null;
  let lastHeatedAt = pot.mixedAt;
  let hotMin = 0;
  for (const event of pot.course) {
    if (event.at > at) break;
    if (event.kind === 'heated') {
      heat = heatOnce(heat, 0);
      lastHeatedAt = mark = event.at;
    } else if (event.kind === 'filled') {
      heat = blend([heat, added(event)]);
    } else {
      const spanMin = Math.max(0, (event.at - mark) / 60_000);
      const fromC: number = readC ?? pourC;
      const toC: number = event.kind === 'read' ? event.tempC : fromC;
      const doseMin = equivalentMin([
        { atMin: 0, tempC: fromC },
        { atMin: spanMin, tempC: toC },
      ]);
      heat = { ...heat, doseMin: heat.doseMin + doseMin };
      hotMin += spanMin;
      mark = Math.max(mark, event.at);
      if (event.kind === 'read') readC = event.tempC;
      else heat = { ...heat, massG: Math.max(0, heat.massG - event.volumeMl * plastisolGPerMl) };
    }
  }
  const { massG, maxHeats, meanHeats, doseMin } = heat;
  return {
    volumeMl: massG / plastisolGPerMl,
    maxHeats,
    meanHeats,
    lastHeatedAt,
    hotMin,
    doseMin,
    readC,
  };
}

/** The temperature that pots are poured at, °C: the mean of their last readings, else what the session takes for it. */
export function pourTempC(table: Table, pots: readonly Pot[], at: Instant): number {
  const temps = pots.map((pot) => {
    const read = pot.course.findLast((event) => event.kind === 'read' && event.at <= at);
    return read?.kind === 'read' ? read.tempC : table.pourC;
  });
  return temps.length === 0
    ? table.pourC
    : temps.reduce((sum, temp) => sum + temp, 0) / temps.length;
}

/** The heat that a pot was in at one instant: 1 from mixing to the first reheating. */
export function heatNumberAt(pot: Pot, at: Instant): number {
  return potStateAt({ ...pot, course: pot.course.filter(isHeat) }, 165, at).maxHeats;
}

function isHeat(event: PotEvent): boolean {
  return event.kind === 'heated' || event.kind === 'filled';
}

function added(event: Extract<PotEvent, { kind: 'filled' }>): PotHeat {
  return {
    massG: event.volumeMl * plastisolGPerMl,
    doseMin: 0,
    meanHeats: event.meanHeats,
    maxHeats: event.maxHeats,
  };
}
