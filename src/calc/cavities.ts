import {
  type CavityResults,
  cavitiesOf,
  failedIn,
  isTelling,
  type Told,
  tellings,
} from '#calc/cavity-results.ts';
import { zeroToOne } from '#calc/range.ts';
import { dnorm, pnorm } from '#calc/special.ts';

/** What the shots that tell cavities apart say of one cavity. */
export interface CavityTally {
  /** Shots with some but not all cavities defective, in which this one was recorded. */
  telling: number;
  /** In how many of them this cavity had the defect. */
  seen: number;
  /** How many that would be by luck alone. */
  expected: number;
}

/** One cavity with its tally, its chance by luck, its evidence and what may be said of it. */
export interface CavityVerdict extends CavityTally {
  midP: number;
  /** The same, corrected for looking at every cavity of the mould. */
  holmP: number;
  evidence: number;
  verdict: 'too-early' | 'stands-out' | 'not-standing-out';
}

/** What may be said of the cavities of a mould. */
export type CavityVerdicts =
  | { kind: 'one-cavity' }
  | { kind: 'nothing-telling'; shots: number }
  | {
      kind: 'judged';
      tellingShots: number;
      cavities: CavityVerdict[];
      /** No cavity stands out, and there were shots enough that a poor one probably would have. */
      isAlike: boolean;
    };

/** How often a false flag is accepted, over all cavities of a mould. */
export const flagLevel = 0.05;

const leastTelling = 5;
const alikeFromTelling = 40;
const exactUpTo = 3000;
const oddsTried = [2, 4, 8];

/**
 * Chances of 0, 1, ... successes in independent trials with the chances q, by convolution.
 * Throws a RangeError for a chance outside 0 to 1.
 */
export function poissonBinomial(q: readonly number[]): number[] {
  const shares = new Float64Array(q.length + 1);
  shares[0] = 1;
  for (const [trials, chance] of q.entries()) {
    zeroToOne('q', chance);
    for (let k = trials + 1; k > 0; k--) {
      shares[k] = (shares[k] ?? 0) * (1 - chance) + (shares[k - 1] ?? 0) * chance;
    }
    shares[0] = (shares[0] ?? 0) * (1 - chance);
  }
  return Array.from(shares);
}

/**
 * Holm's step-down correction (Holm 1979): the chances in the order given, each raised so that
 * flagging those up to 0.05 errs anywhere in at most 5 of 100 families.
 * Throws a RangeError for a chance outside 0 to 1.
 */
export function holm(p: readonly number[]): number[] {
  const order = p.map((value, at) => ({ value: zeroToOne('p', value), at }));
  order.sort((a, b) => a.value - b.value);
  const corrected = new Array<number>(p.length).fill(1);
  let highest = 0;
  for (const [rank, { value, at }] of order.entries()) {
    highest = Math.max(highest, Math.min(1, value * (p.length - rank)));
    corrected[at] = highest;
  }
  return corrected;
}

/**
 * Per cavity, the chance by luck alone of at least as many defects in the telling shots, the count
 * itself taken half: the exact Mantel-Haenszel test with shots as strata. Everything that hits a
 * whole shot drops out of it. Without telling shots 0.5.
 * Throws a RangeError for rows of unequal length or a result other than 0, 1 and null.
 */
export function cavityMidP(matrix: CavityResults): number[] {
  return midPOf(tellings(matrix));
}

/**
 * Per cavity, the running evidence after the last shot that its odds of the defect are above those
 * of its neighbours: 1 says nothing, `badgeLine` lights the badge. Honest however often it is read,
 * since without a poor cavity it is expected to stay where it is (Ville 1939).
 * Throws a RangeError for rows of unequal length or a result other than 0, 1 and null.
 */
export function cavityEvidence(matrix: CavityResults): number[] {
  let evidence = new Array<number>(cavitiesOf(matrix)).fill(1);
  followEvidence(matrix, (now) => {
    evidence = now;
  });
  return evidence;
}

/** The evidence that lights a badge in a mould of so many cavities, for so many kinds of defect watched. */
export function badgeLine(cavities: number, kinds = 1): number {
  return (cavities * kinds) / flagLevel;
}

/** Per cavity, the index of the shot that first lit its badge, or null. Errors as `cavityEvidence`. */
export function badgeLitAt(matrix: CavityResults, kinds = 1): (number | null)[] {
  const litAt = new Array<number | null>(cavitiesOf(matrix)).fill(null);
  const line = badgeLine(litAt.length, kinds);
  followEvidence(matrix, (now, shot) => {
    for (const [cavity, evidence] of now.entries()) {
      if (evidence >= line) litAt[cavity] ??= shot;
    }
  });
  return litAt;
}

/** Per cavity, seen and expected defects in the telling shots. Errors as `cavityMidP`. */
export function cavityTallies(matrix: CavityResults): CavityTally[] {
  return tellings(matrix).map(tallyOf);
}

/**
 * What may be said of each cavity: the exact test with Holm at 5 %, refused while fewer than 5
 * shots tell or while even a cavity that failed in all of them could not pass.
 * Errors as `cavityMidP`.
 */
export function cavityVerdicts(matrix: CavityResults): CavityVerdicts {
  const told = tellings(matrix);
  if (told.length === 1) return { kind: 'one-cavity' };
  const tellingShots = matrix.filter((shot) => isTelling(failedIn(shot))).length;
  if (tellingShots === 0) return { kind: 'nothing-telling', shots: matrix.length };
  const midP = midPOf(told);
  const holmP = holm(midP);
  const evidence = cavityEvidence(matrix);
  const cavities = told.map((cavity, at): CavityVerdict => {
    const corrected = holmP[at] ?? 1;
    return {
      ...tallyOf(cavity),
      midP: midP[at] ?? 1,
      holmP: corrected,
      evidence: evidence[at] ?? 1,
      verdict: verdictOf(cavity, corrected, told.length),
    };
  });
  const isAlike =
    tellingShots >= alikeFromTelling && cavities.every(({ verdict }) => verdict !== 'stands-out');
  return { kind: 'judged', tellingShots, cavities, isAlike };
}

function verdictOf(cavity: Told, corrected: number, cavities: number): CavityVerdict['verdict'] {
  const alwaysBad = cavity.q.reduce((product, q) => product * q, 0.5);
  if (cavity.q.length < leastTelling || alwaysBad > flagLevel / cavities) return 'too-early';
  return corrected <= flagLevel ? 'stands-out' : 'not-standing-out';
}

function tallyOf({ q, seen }: Told): CavityTally {
  return { telling: q.length, seen, expected: q.reduce((sum, chance) => sum + chance, 0) };
}

function midPOf(told: readonly Told[]): number[] {
  let last: { q: readonly number[]; shares: readonly number[] } | null = null;
  return told.map(({ q, seen }) => {
    if (q.length > exactUpTo) return midPAfar(q, seen);
    // Cavities recorded in the same shots share one distribution, and it is the costly part.
    if (!last || !isSame(last.q, q)) last = { q, shares: poissonBinomial(q) };
    const above = last.shares.slice(seen + 1).reduce((sum, share) => sum + share, 0);
    return Math.min(1, above + (last.shares[seen] ?? 0) / 2);
  });
}

/** The mid-p of a long log: the normal tail with Edgeworth's correction for skewness. */
function midPAfar(q: readonly number[], seen: number): number {
  let mean = 0;
  let variance = 0;
  let third = 0;
  for (const chance of q) {
    const spread = chance * (1 - chance);
    mean += chance;
    variance += spread;
    third += spread * (1 - 2 * chance);
  }
  const z = (seen - mean) / Math.sqrt(variance);
  const skew = third / variance ** 1.5;
  return Math.min(1, Math.max(0, pnorm(-z) - (skew * (1 - z * z) * dnorm(z)) / 6));
}

/** Logarithms of the running products, per odds tried and cavity: what evidence is carried on from. */
export type EvidenceLogs = readonly (readonly number[])[];

/**
 * The running products after these shots, going on from earlier ones; `evidenceFrom` reads them.
 * Errors as `cavityEvidence`.
 */
export function evidenceLogs(matrix: CavityResults, from?: EvidenceLogs): EvidenceLogs {
  return followEvidence(matrix, () => {}, from);
}

/** Per cavity, the running evidence that such products stand for. */
export function evidenceFrom(logs: EvidenceLogs): number[] {
  return meansOf(logs);
}

function followEvidence(
  matrix: CavityResults,
  tell: (evidence: number[], shot: number) => void,
  from?: EvidenceLogs,
): number[][] {
  const cavities = Math.max(cavitiesOf(matrix), from?.[0]?.length ?? 0);
  const logs = oddsTried.map((_, turn) =>
    Array.from({ length: cavities }, (_, cavity) => from?.[turn]?.[cavity] ?? 0),
  );
  for (const [at, shot] of matrix.entries()) {
    const counted = failedIn(shot);
    if (!isTelling(counted)) continue;
    const { failed, recorded } = counted;
    for (const [turn, odds] of oddsTried.entries()) {
      const log = logs[turn] ?? [];
      const share = Math.log(recorded / (failed * odds + recorded - failed));
      for (const [cavity, result] of shot.entries()) {
        if (result === null) continue;
        log[cavity] = (log[cavity] ?? 0) + share + (result === 1 ? Math.log(odds) : 0);
      }
    }
    tell(meansOf(logs), at);
  }
  return logs;
}

function meansOf(logs: EvidenceLogs): number[] {
  const [first = []] = logs;
  return first.map((_, cavity) => {
    // Beyond e^700 a double would overflow, and no decision changes.
    const each = logs.map((log) => Math.exp(Math.min(700, log[cavity] ?? 0)));
    return each.reduce((sum, value) => sum + value / each.length, 0);
  });
}

function isSame(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((value, at) => value === b[at]);
}
