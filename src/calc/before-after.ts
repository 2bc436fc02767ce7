import { type CavityResults, cavitiesOf, failedIn } from '#calc/cavity-results.ts';
import { demandCount, total, wholeFrom } from '#calc/counts.ts';
import { finite, positive } from '#calc/range.ts';
import {
  effectOf,
  pooledLikeness,
  type ShotCounts,
  sessionPrior,
  sessionTotals,
  together,
  wilson,
} from '#calc/yield.ts';

/** A difference of shares with its interval: [d, lo, hi]. */
export type Difference = [d: number, lo: number, hi: number];

/** What may be said of a change; the counts are of a defect, so that less is better. */
export type ChangeVerdict =
  | { kind: 'too-few'; shotsBefore: number; shotsAfter: number; needed: number }
  | Decided
  | (Compared & {
      kind: 'unclear';
      /** About how many more shots would tell if things go on as now; null if 500 would not. */
      moreShots: number | null;
    });

/** A change that shows, or that is shown to be too small to matter. */
export type Decided = Compared & { kind: 'helped' | 'made-worse' | 'no-real-difference' };

/** After less before, and the counts behind it; for one cavity, less the change of the others. */
export interface Compared {
  change: Difference;
  before: Defects;
  after: Defects;
  /** What the other cavities did meanwhile; null: it was compared with itself. */
  others: { before: Defects; after: Defects } | null;
  /** Where the share of bad ones may truly lie on either side: [lo, hi], to be drawn. */
  ranges: { before: [number, number]; after: [number, number] };
}

/** Defective cavities out of those recorded. */
export interface Defects {
  bad: number;
  total: number;
}

/** The same over one period: counts per shot of the defect, session by session. */
export type Period = readonly ShotCounts[];

const conf = 0.95;
/** For a cavity picked for looking worst, which is worst partly by luck. */
const pickedConf = 0.98;
const leastShots = 5;
const noRealDifference = 0.05;
const mostMoreShots = 500;

/**
 * Difference p1 - p2 of two shares with its interval: Newcombe 1998 (Stat Med 17:873) method 10,
 * each side on its count divided by its D. Nothing recorded on a side says nothing: [0, -1, 1].
 * Throws a RangeError for impossible counts, D <= 0 or a confidence outside (0, 1).
 */
export function newcombe(
  x1: number,
  n1: number,
  x2: number,
  n2: number,
  D1 = 1,
  D2 = 1,
  confidence = conf,
): Difference {
  demandCount(x1, n1);
  demandCount(x2, n2);
  const [l1, u1] = wilson(x1 / positive('D1', D1), n1 / D1, confidence);
  const [l2, u2] = wilson(x2 / positive('D2', D2), n2 / D2, confidence);
  if (n1 === 0 || n2 === 0) return [0, -1, 1];
  const p1 = x1 / n1;
  const p2 = x2 / n2;
  const d = p1 - p2;
  return [d, d - Math.hypot(p1 - l1, u2 - p2), d + Math.hypot(u1 - p1, p2 - l2)];
}

/**
 * Difference of two independent differences with its interval by the method of variance estimates
 * recovery (Donner and Zou 2012). Throws a RangeError unless lo <= d <= hi in both.
 */
export function mover(a: Readonly<Difference>, b: Readonly<Difference>): Difference {
  for (const difference of [a, b]) demandOrder(difference);
  const dd = a[0] - b[0];
  return [dd, dd - Math.hypot(a[0] - a[1], b[2] - b[0]), dd + Math.hypot(a[2] - a[0], b[0] - b[1])];
}

/**
 * Did a change help a whole mould, injector or colourway? Warm shots before and after, the effect
 * pooled within the periods; a period of several sessions also counts how these differ.
 * Throws a RangeError for impossible counts.
 */
export function changeVerdict(before: Period, after: Period): ChangeVerdict {
  const [was, is] = sidesOf(before, after);
  return verdictOf({ was, is, others: null }, (times) => differenceOf(was, grown(is, times), conf));
}

/**
 * Did a change help one cavity? Its own change less that of the other cavities in the same shots;
 * with 98 % when it was picked for looking worst. A mould of one cavity is compared with itself.
 * `mended` are other cavities that something was done to in the same time: they got better by
 * themselves and would make this one look worse, so they are no part of the comparison.
 * Throws a RangeError for an unknown cavity or impossible results.
 */
export function cavityChangeVerdict(
  before: CavityResults,
  after: CavityResults,
  cavity: number,
  isPickedAsWorst: boolean,
  mended: readonly number[] = [],
): ChangeVerdict {
  const [wasOwn, isOwn] = [ownSide(before, cavity), ownSide(after, cavity)];
  const apart = new Set([cavity, ...mended]);
  const [wasRest, isRest] = sidesOf([restOf(before, apart)], [restOf(after, apart)]);
  const confidence = isPickedAsWorst ? pickedConf : conf;
  const others =
    wasRest.total + isRest.total === 0
      ? null
      : { before: defectsOf(wasRest), after: defectsOf(isRest) };
  return verdictOf({ was: wasOwn, is: isOwn, others }, (times) => {
    const own = differenceOf(wasOwn, grown(isOwn, times), confidence);
    if (!others) return own;
    return mover(own, differenceOf(wasRest, grown(isRest, times), confidence));
  });
}

interface Side extends Defects {
  shots: number;
  effect: number;
}

interface Sides {
  was: Side;
  is: Side;
  others: Compared['others'];
}

function verdictOf(
  { was, is, others }: Sides,
  changeWhen: (times: number) => Difference,
): ChangeVerdict {
  if (Math.min(was.shots, is.shots) < leastShots) {
    return { kind: 'too-few', shotsBefore: was.shots, shotsAfter: is.shots, needed: leastShots };
  }
  const change = changeWhen(1);
  const rangeOf = ({ bad, total: all, effect }: Side) => wilson(bad / effect, all / effect, conf);
  const ranges = { before: rangeOf(was), after: rangeOf(is) };
  const facts = { change, before: defectsOf(was), after: defectsOf(is), others, ranges };
  const kind = decisionOf(change);
  if (kind) return { kind, ...facts };
  return { kind: 'unclear', ...facts, moreShots: moreShotsFor(is.shots, changeWhen) };
}

function decisionOf([, lo, hi]: Difference): Decided['kind'] | null {
  if (hi < 0) return 'helped';
  if (lo > 0) return 'made-worse';
  return lo >= -noRealDifference && hi <= noRealDifference ? 'no-real-difference' : null;
}

/** The fewest shots more that would decide, or halve the interval, with the shares as they are. */
function moreShotsFor(shots: number, changeWhen: (times: number) => Difference): number | null {
  const [, lo, hi] = changeWhen(1);
  const isTelling = (more: number) => {
    const later = changeWhen(1 + more / shots);
    return decisionOf(later) !== null || later[2] - later[1] <= (hi - lo) / 2;
  };
  if (!isTelling(mostMoreShots)) return null;
  let few = 0;
  let enough = mostMoreShots;
  while (enough - few > 1) {
    const middle = Math.floor((few + enough) / 2);
    if (isTelling(middle)) enough = middle;
    else few = middle;
  }
  return enough;
}

function differenceOf(was: Side, is: Side, confidence: number): Difference {
  return newcombe(is.bad, is.total, was.bad, was.total, is.effect, was.effect, confidence);
}

function grown(side: Side, times: number): Side {
  return { ...side, bad: side.bad * times, total: side.total * times };
}

function sidesOf(before: Period, after: Period): [Side, Side] {
  const rho = pooledLikeness([together(before), together(after)]);
  const wholes = [sessionTotals(before), sessionTotals(after)] as const;
  const sessionRho = pooledLikeness(wholes, sessionPrior);
  const sideOf = (period: Period, whole: ShotCounts): Side => {
    const { x, n } = together(period);
    const isSeveral = whole.n.length > 1;
    const effect = Math.max(effectOf(rho, n), isSeveral ? effectOf(sessionRho, whole.n) : 1);
    return { bad: total(x), total: total(n), shots: n.filter((c) => c > 0).length, effect };
  };
  return [sideOf(before, wholes[0]), sideOf(after, wholes[1])];
}

function ownSide(matrix: CavityResults, cavity: number): Side {
  if (matrix.length > 0 && wholeFrom(0, 'cavity', cavity) >= cavitiesOf(matrix)) {
    throw new RangeError(`There is no cavity ${cavity} in these shots.`);
  }
  const { failed, recorded } = failedIn(matrix.map((shot) => shot[cavity] ?? null));
  return { bad: failed, total: recorded, shots: recorded, effect: 1 };
}

function restOf(matrix: CavityResults, apart: ReadonlySet<number>): ShotCounts {
  const counted = matrix.map((shot) => failedIn(shot.filter((_, at) => !apart.has(at))));
  return { x: counted.map(({ failed }) => failed), n: counted.map(({ recorded }) => recorded) };
}

function defectsOf({ bad, total: recorded }: Side): Defects {
  return { bad, total: recorded };
}

function demandOrder([d, lo, hi]: Readonly<Difference>): void {
  finite('lo', lo);
  finite('hi', hi);
  if (!(lo <= d && d <= hi)) throw new RangeError(`${d} does not lie from ${lo} to ${hi}.`);
}
