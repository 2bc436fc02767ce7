import { uptakeShare } from '#calc/conduction.ts';
import { calibrate, type HeatCourse, type MouldHeat, mouldHeat, mouldTempC } from '#calc/heat.ts';
import { lossWPerK, mouldMassG, specificHeat } from '#calc/mould-size.ts';
import { pourTempC } from '#calc/pot-course.ts';
import { type Seat, type Shot, type Table, waitingShot } from '#calc/table.ts';
import type { FrozenMould } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';

/** How far above the cold line a mould counts as fully warm, K. Common practice, no source. */
const warmingSpanK = 10;
/** A mould that has stood empty for this long is said to be cooling. Common practice, no source. */
const coolingAfterMs = 6 * 60_000;
/** Set time that a bait is taken to give its heat off in, while nothing better is known, s. */
const usualSetSec = 180;

export type WarmthWord = 'cold' | 'warming' | 'warm' | 'cooling';

/** How warm a mould is, and why that is thought. */
export interface Warmth {
  tempC: number;
  word: WarmthWord;
  /** Filled blocks on the card, 0 to 3. */
  blocks: 0 | 1 | 2 | 3;
  /** False for materials that do not chill the plastic: the word says nothing about the baits. */
  isFlagged: boolean;
  shots: number;
  lastShotAt: Instant | null;
  readings: number;
  massFrom: 'weighed' | 'cavities';
}

/** How warm the mould of a seat is at one instant, in words for its card. */
export function warmthAt(table: Table, seat: Seat, at: Instant): Warmth {
  const shots = seat.shots.filter((shot) => shot.filledAt <= at);
  const heat = heatOf(table, seat);
  const tempC = mouldTempC(heat, courseOf(table, shots), at);
  const lineK = seat.mould.warmAboveK ?? defaultWarmAboveK;
  const aboveK = tempC - table.ambientC;
  const lastShotAt = shots.at(-1)?.filledAt ?? null;
  const stoodMs = waitingShot(seat) || lastShotAt === null ? 0 : at - lastShotAt;
  const isIdle = stoodMs > coolingAfterMs;
  return {
    tempC,
    word: wordOf(aboveK, lineK, isIdle),
    blocks: aboveK < lineK ? (shots.length > 0 ? 1 : 0) : aboveK < lineK + warmingSpanK ? 2 : 3,
    isFlagged: seat.mould.warmAboveK !== null,
    shots: shots.length,
    lastShotAt,
    readings: seat.readings.length,
    massFrom: mouldMassG(seat.mould).from,
  };
}

/** A shop's first cold line: K above the shop under which a shot counts as cold (methods-heat 3). */
export const defaultWarmAboveK = 15;

/** The mould's temperature just before a shot went in, °C. */
export function tempBeforeC(table: Table, seat: Seat, shot: Shot): number {
  const earlier = seat.shots.filter((other) => isBefore(other, shot));
  return mouldTempC(heatOf(table, seat), courseOf(table, earlier), shot.filledAt);
}

/** The mould wall that a shot of this instant sets against, °C: the mould with the shot in it. */
export function wallTempC(table: Table, seat: Seat, shot: Pick<Shot, 'filledAt' | 'volumeMl'>) {
  const earlier = seat.shots.filter((other) => other.filledAt < shot.filledAt);
  const course = courseOf(table, earlier);
  const pourC = pourTempC(table, table.potsInUse, shot.filledAt);
  const shots = [...course.shots, { at: shot.filledAt, volumeMl: shot.volumeMl, pourC }];
  return mouldTempC(heatOf(table, seat), { ...course, shots }, shot.filledAt);
}

/** True when the shot was poured into a mould below its cold line; null: no cold flag for this mould. */
export function isColdShot(table: Table, seat: Seat, shot: Shot): boolean | null {
  const lineK = seat.mould.warmAboveK;
  return lineK === null ? null : tempBeforeC(table, seat, shot) - table.ambientC < lineK;
}

/** How the mould takes and loses heat: from its size, or as tonight's and earlier readings have it. */
export function heatOf(table: Table, seat: Seat): MouldHeat {
  const prior = priorHeat(seat.mould);
  if (seat.readings.length === 0) return prior;
  const { tauSec, uptake } = calibrate(prior, courseOf(table, seat.shots), [...seat.readings]);
  return { ...prior, tauSec, uptake };
}

function priorHeat(mould: FrozenMould): MouldHeat {
  const { massG } = mouldMassG(mould);
  const heat = mouldHeat({
    massKg: massG / 1_000,
    cpJPerKgK: specificHeat(mould.material),
    lossWPerK: lossWPerK(massG),
    uptake: mould.section
      ? uptakeShare({ ...mould.section, setSec: mould.setSec ?? usualSetSec })
      : 0.9,
  });
  return mould.heat ? { ...heat, ...mould.heat } : heat;
}

function courseOf(table: Table, shots: readonly Shot[]): HeatCourse {
  return {
    ambientC: table.ambientC,
    shots: shots.map((shot) => ({
      at: shot.filledAt,
      volumeMl: shot.volumeMl,
      pourC: pourTempC(table, potsOf(table, shot), shot.filledAt),
    })),
  };
}

function potsOf(table: Table, shot: Shot) {
  return table.pots.filter((pot) => shot.potIds.includes(pot.id));
}

function isBefore(other: Shot, shot: Shot): boolean {
  return (
    other.filledAt < shot.filledAt ||
    (other.filledAt === shot.filledAt && other.number < shot.number)
  );
}

function wordOf(aboveK: number, lineK: number, isIdle: boolean): WarmthWord {
  if (aboveK < lineK) return 'cold';
  if (isIdle) return 'cooling';
  return aboveK < lineK + warmingSpanK ? 'warming' : 'warm';
}
