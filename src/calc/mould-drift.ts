import { total } from '#calc/counts.ts';
import {
  alarmLine,
  betterOdds,
  type Drift,
  type DriftBaseline,
  driftBaseline,
  driftSince,
  isRareShot,
  llrAverageRun,
  type Normal,
  worseOdds,
} from '#calc/drift.ts';
import { countIn, type LoggedShot, warmShots } from '#calc/mould-shots.ts';

/** Where "normal" is taken from: all but the newest shots, or the first ones. */
export type NormalFrom = 'before' | 'first';

/** How a mould runs lately against its own normal. */
export type MouldDrift =
  | { kind: 'no-normal'; baseline: Exclude<DriftBaseline, { kind: 'ready' }> }
  | {
      kind: 'watched';
      normal: Normal;
      /** Warm shots that normal was taken from, and those watched. */
      baseShots: number;
      watched: WatchedShot[];
      /** Those of them from before something was done to the mould or its drift was seen: not counted. */
      passed: number;
      /** Shots are places in `watched`. */
      drift: Drift;
      cavities: number;
    };

/** One watched shot. */
export interface WatchedShot {
  filledAt: number;
  bad: number;
  of: number;
  /** More bad than one normal shot in 740 has. */
  isRare: boolean;
}

const watchedShots = 40;
const firstShots = 30;
const enoughFailures = 10;

/**
 * How the warm shots of a mould run lately: bad ones of any kind against normal. Shots from before
 * the last thing done to the mould are left out where enough remain to tell. The sum begins anew
 * after that, and after `seenAt`, when the person last said that a drift was seen.
 */
export function mouldDrift(
  shots: readonly LoggedShot[],
  lastDoneAt: number,
  from: NormalFrom,
  seenAt = 0,
): MouldDrift {
  const warm = warmShots(shots).flatMap(({ cells, filledAt }) => {
    const { seen, checked } = countIn(cells, 'bad');
    return checked > 0 ? [{ filledAt, bad: seen, of: checked }] : [];
  });
  const since = warm.filter(({ filledAt }) => filledAt >= lastDoneAt);
  const used = since.length >= watchedShots + firstShots ? since : warm;
  const until = from === 'before' ? Math.max(0, used.length - watchedShots) : firstUntil(used);
  const base = used.slice(0, until);
  const baseline = driftBaseline(
    base.map(({ bad }) => bad),
    base.map(({ of }) => of),
  );
  if (baseline.kind !== 'ready') return { kind: 'no-normal', baseline };
  const { normal } = baseline;
  const watched = used
    .slice(until)
    .map((shot) => ({ ...shot, isRare: isRareShot(shot.bad, shot.of, normal) }));
  const anewAt = Math.max(lastDoneAt, seenAt);
  const passed = watched.filter(({ filledAt }) => filledAt < anewAt).length;
  const counted = watched.slice(passed);
  const drift = driftSince(
    counted.map(({ bad }) => bad),
    counted.map(({ of }) => of),
    normal,
  );
  return {
    kind: 'watched',
    normal,
    baseShots: base.length,
    watched,
    passed,
    drift: placed(drift, passed),
    cavities: Math.max(1, ...watched.map(({ of }) => of)),
  };
}

/**
 * Shots until such a chart raises a false alarm on average, either way, while all runs as normal;
 * and until it notices that the odds of a bad one doubled. Takes a moment: 2 Markov chains each.
 */
export function driftRuns(
  { p0, rho }: Normal,
  cavities: number,
): { falseAlarm: number; notice: number } {
  const effect = Math.max(1, 1 + (cavities - 1) * rho);
  const run = (p: number, odds: number) =>
    llrAverageRun(cavities, p, p0, odds, effect, rho, alarmLine);
  const doubled = (worseOdds * p0) / (1 - p0 + worseOdds * p0);
  return {
    falseAlarm: 1 / (1 / run(p0, worseOdds) + 1 / run(p0, betterOdds)),
    notice: run(doubled, worseOdds),
  };
}

/** A drift whose shots are counted from further back. */
function placed(drift: Drift, by: number): Drift {
  if (drift.kind === 'as-usual') return drift;
  return { ...drift, alarmAt: drift.alarmAt + by, sinceShot: drift.sinceShot + by };
}

/** The first 30 shots, or as many as it takes for 10 bad ones. */
function firstUntil(shots: readonly Pick<WatchedShot, 'bad'>[]): number {
  let until = Math.min(firstShots, shots.length);
  while (
    until < shots.length &&
    total(shots.slice(0, until).map(({ bad }) => bad)) < enoughFailures
  )
    until += 1;
  return until;
}
