import { setTimeSec } from '#calc/conduction.ts';
import { median } from '#calc/median.ts';
import { pourTempC } from '#calc/pot-course.ts';
import { lastPouredAt, type Seat, type Shot, type Table } from '#calc/table.ts';
import { wallTempC } from '#calc/warmth.ts';
import type { Instant } from '#model/schemas.ts';

/** Centre temperature at which a bait is firm enough to open, °C. Common practice, no source. */
const openC = 60;
/** Clock while nothing is known about the bait, s. Common practice, no source. */
export const firstSetSec = 180;
/** How many of the person's own opens set the clock. */
export const ownOpensNeeded = 5;
const shortestSec = 15;
const longestSec = 1_800;

/** How long the next shot's clock runs, and where that comes from. */
export interface SetClock {
  /** Null: this mould is poured without a clock. */
  setSec: number | null;
  from: 'no-clock' | 'chosen' | 'own-opens' | 'predicted' | 'too-warm' | 'first';
  /** How many of the person's own opens it rests on. */
  opens: number;
  /** The mould wall it was worked out for, °C; null: not worked out. */
  wallC: number | null;
}

/**
 * The clock for a shot of `volumeMl` filled now: the person's own choice, else the median of their
 * own opens after five, else worked out from the thickest section, the pour temperature and the
 * predicted wall, else 3:00. `too-warm`: the wall is hotter than a bait can be opened at, and the
 * clock is only the longest that makes sense.
 */
export function setClockAt(table: Table, seat: Seat, volumeMl: number, at: Instant): SetClock {
  const opens = ownOpensSec(seat);
  const known = { opens: opens.length, wallC: null };
  if (seat.mould.hasNoClock) return { ...known, setSec: null, from: 'no-clock' };
  if (seat.mould.setSec !== null) return { ...known, setSec: seat.mould.setSec, from: 'chosen' };
  const ownSec = ownSetSec(opens);
  if (ownSec !== null) return { ...known, setSec: ownSec, from: 'own-opens' };
  if (!seat.mould.section) return { ...known, setSec: firstSetSec, from: 'first' };
  const wallC = wallTempC(table, seat, { filledAt: at, volumeMl });
  const pourC = pourTempC(table, table.potsDrawn, at);
  const setSec = setTimeSec({ ...seat.mould.section, pourC, wallC, openC });
  if (setSec === 'never')
    return { opens: opens.length, wallC, setSec: longestSec, from: 'too-warm' };
  const held = Math.min(longestSec, Math.max(shortestSec, roundedTo(5, setSec)));
  return { opens: opens.length, wallC, setSec: held, from: 'predicted' };
}

/** The clock that the person's own opens make, s: their median, to 5 s and at least that; null: too few of them. */
export function ownSetSec(opensSec: readonly number[]): number | null {
  return opensSec.length < ownOpensNeeded ? null : Math.max(5, roundedTo(5, median(opensSec)));
}

/**
 * How long a shot stayed shut after the last plastic went in, s; null: it had no clock, or is not open yet. A shot whose clock ran
 * out counts as opened then: time that it waited to be logged must not make the next clock longer.
 */
export function openSec(shot: Shot): number | null {
  if (shot.setSec === null) return null;
  const fromAt = lastPouredAt(shot);
  const ranOutAt = fromAt + shot.setSec * 1_000;
  const loggedAt = shot.loggedAt === null ? null : Math.min(shot.loggedAt, ranOutAt);
  const openedAt = shot.clockStoppedAt ?? loggedAt;
  if (openedAt === null) return null;
  const sec = (openedAt - fromAt) / 1_000;
  return sec > 0 && sec <= 3_600 ? sec : null;
}

/** Earlier and tonight's opens of shots that were all good, s, newest last, at most 20. */
function ownOpensSec(seat: Seat): number[] {
  const tonight = seat.shots.flatMap((shot) => {
    const sec = openSec(shot);
    return sec !== null && isAllGood(shot) ? [sec] : [];
  });
  return [...seat.mould.ownOpensSec, ...tonight].slice(-20);
}

function isAllGood(shot: Shot): boolean {
  return (
    shot.loggedAt !== null &&
    shot.results.every((result) => result === 'good' || result === 'closed')
  );
}

function roundedTo(step: number, value: number): number {
  return Math.round(value / step) * step;
}
