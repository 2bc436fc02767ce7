import type { DriverVerdict } from '#calc/driver-refusals.ts';
import { countIn, countsBySession, type LoggedShot } from '#calc/mould-shots.ts';
import { type FactorName, shotDriverSteps } from '#calc/shot-drivers.ts';
import { endOf } from '#calc/steps.ts';
import { isTooEarlyAcross, yieldIntervalAcross } from '#calc/yield.ts';

/** The shots that were opened within a band of time shut, and their dents. */
export interface ShutBand {
  /** The band, s: from this on, until just before that; null: an open end. */
  fromSec: number | null;
  toSec: number | null;
  shots: number;
  dents: number;
  checked: number;
  /** [p, lo, hi] of the dented share to expect again; null: too few to tell. */
  shares: [number, number, number] | null;
}

/** What may be said of the time shut and dents; that one causes the other is never said. */
export type ShutDents =
  | { kind: 'too-few-shots'; shots: number; needed: number }
  | { kind: 'no-dents'; checked: number }
  /** Fewer than two bands have shots enough: there is nothing to hold against each other. */
  | { kind: 'one-time'; shots: number }
  | {
      kind: 'bands';
      bands: ShutBand[];
      shots: number;
      sessions: number;
      /** Of time shut among the factors asked; null: too few complete shots to ask at all. */
      verdict: DriverVerdict | null;
    };

const leastShots = 8;
const mostBands = 5;
/** Widths that a person reads off a clock, s. */
const widthsSec = [15, 30, 60, 120, 300, 600, 1_200, 3_600];
/** This share at either end may lie in the open bands. */
const tail = 0.05;

/**
 * Dents by the time that the mould stayed shut, in shots whose time is known. Each band is judged on
 * its own; whether dents go with the time is the verdict of the drivers, with Holm over all factors
 * asked. RangeError for a confidence outside (0, 1).
 */
export function shutDents(
  shots: readonly LoggedShot[],
  factors: readonly FactorName[],
  conf: number,
): ShutDents {
  return endOf(shutDentsSteps(shots, factors, conf));
}

/** The same in steps, so that a page can draw in between when the log is long. */
export function* shutDentsSteps(
  shots: readonly LoggedShot[],
  factors: readonly FactorName[],
  conf: number,
): Generator<void, ShutDents> {
  const timed = shots.filter(
    ({ openSec, cells }) => openSec > 0 && countIn(cells, 'dent').checked > 0,
  );
  if (timed.length < leastShots) {
    return { kind: 'too-few-shots', shots: timed.length, needed: leastShots };
  }
  const bands = edgesOf(timed).map(([fromSec, toSec]): ShutBand => {
    const own = timed.filter(
      ({ openSec }) => openSec >= (fromSec ?? 0) && openSec < (toSec ?? Infinity),
    );
    const counts = countsBySession(own, 'dent');
    const sum = (of: 'x' | 'n') =>
      counts.reduce((all, each) => each[of].reduce((part, one) => part + one, all), 0);
    const isEarly = own.length === 0 || isTooEarlyAcross(counts, conf);
    const shares = isEarly ? null : yieldIntervalAcross(counts, conf);
    return { fromSec, toSec, shots: own.length, dents: sum('x'), checked: sum('n'), shares };
  });
  if (bands.every(({ dents }) => dents === 0)) {
    return { kind: 'no-dents', checked: bands.reduce((sum, { checked }) => sum + checked, 0) };
  }
  if (bands.filter(({ shares }) => shares !== null).length < 2) {
    return { kind: 'one-time', shots: timed.length };
  }
  yield;
  const { said, names } = yield* shotDriverSteps(shots, 'dent', factors);
  const at = names.indexOf('time-shut');
  return {
    kind: 'bands',
    bands,
    shots: timed.length,
    sessions: new Set(timed.map(({ sessionId }) => sessionId)).size,
    verdict: said.kind === 'judged' ? (said.factors[at] ?? null) : null,
  };
}

/** Bands of one width of a clock, as fine as at most five allow; the first and the last are open. */
function edgesOf(timed: readonly LoggedShot[]): [number | null, number | null][] {
  const times = timed.map(({ openSec }) => openSec).sort((a, b) => a - b);
  const at = (share: number) => times[Math.round(share * (times.length - 1))] ?? 0;
  const [low, high] = [at(tail), at(1 - tail)];
  const bandsOf = (width: number) => Math.floor(high / width) - Math.floor(low / width) + 1;
  const width = widthsSec.find((each) => bandsOf(each) <= mostBands) ?? 3_600;
  const first = Math.floor(low / width);
  const count = Math.min(mostBands, bandsOf(width));
  return Array.from({ length: count }, (_, index) => [
    index === 0 ? null : (first + index) * width,
    index === count - 1 ? null : (first + index + 1) * width,
  ]);
}
