import { cholesky, solved, type Triangle } from '#calc/cholesky.ts';
import type { PotRun, Pour } from '#calc/pot-runs.ts';
import { notNegative } from '#calc/range.ts';
import type { MouldId } from '#model/mould.ts';

/**
 * What the person's own pots taught of the plastisol that no shot accounts for: so much stays in pot
 * and injector whatever is poured, and every shot takes a share more than its cavities, by mould.
 */
export interface LearntLoss {
  /** Pots of which the left-over was told. */
  runs: number;
  /** Of those, the ones that a mould was poured from. */
  runsOf: ReadonlyMap<MouldId, number>;
  /** What stays in pot and injector, mL. */
  potMl: number;
  /** What a mould takes beside its cavities, as a share of them; a mould never seen has the shop's. */
  shareOf: (mouldId: MouldId) => number;
  /** Standard error and degrees of freedom of one more pot of these pours. */
  doubtOf: (pours: readonly Pour[]) => { sdMl: number; freedom: number };
}

/** What to heat for some shots out of one pot. */
export interface Heat {
  /** What the shots should take. */
  shouldMl: number;
  /** With the loss. */
  heatMl: number;
  /** Eight pots of ten need between these; nine of ten no more than the higher. */
  lowMl: number;
  highMl: number;
  /** Own pots behind it: for every mould that is poured at least so many. */
  runs: number;
  /** Fewer than three: the numbers are ours, not the person's. */
  isGuess: boolean;
}

/** What stays in injector and pot, mL: the worked example of methods-colour-plan section 2.6. */
const usualLosses = { injectorDeadMl: 10, potResidueMl: 15 } as const;

/** Pots of a mould from which its loss is told as the person's own. */
export const enoughRuns = 3;

/**
 * What is believed before the first pot: 10 mL in the injector and 15 in the pot (the worked example
 * of methods-colour-plan, section 2.6), give or take 15; shots take what their cavities hold, give or
 * take 6 % for the shop and as much again for a mould; one pot differs from the next by 15 mL.
 * Common practice, no source; four pots weigh as much as this.
 */
const prior = {
  potMl: usualLosses.injectorDeadMl + usualLosses.potResidueMl,
  potSdMl: 15,
  shareSd: 0.06,
  noiseSdMl: 15,
  freedom: 4,
};

/**
 * The loss by linear regression with the conjugate prior (normal, inverse gamma): each pot's loss is
 * what went in, less what was left and what its shots should have taken. RangeError for volumes below 0.
 */
export function learntLoss(runs: readonly PotRun[]): LearntLoss {
  const runsOf = new Map<MouldId, number>();
  for (const { pours } of runs) {
    for (const mouldId of new Set(pours.map((pour) => pour.mouldId))) {
      runsOf.set(mouldId, (runsOf.get(mouldId) ?? 0) + 1);
    }
  }
  const places = new Map([...runsOf.keys()].map((mouldId, index) => [mouldId, index + 2]));
  // A mould that was never seen has a deviation of its own, of which nothing is known.
  const size = places.size + 3;
  const rowOf = (pours: readonly Pour[]) => {
    const row = new Array<number>(size).fill(0);
    row[0] = 1;
    const strange = new Map<MouldId, number>();
    for (const { mouldId, shouldMl } of pours) {
      row[1] = (row[1] ?? 0) + notNegative('shouldMl', shouldMl);
      const place = places.get(mouldId);
      if (place === undefined) strange.set(mouldId, (strange.get(mouldId) ?? 0) + shouldMl);
      else row[place] = (row[place] ?? 0) + shouldMl;
    }
    row[size - 1] = Math.hypot(...strange.values());
    return row;
  };
  const rows = runs.map(({ pours }) => rowOf(pours));
  const off = runs.map(({ inMl, leftMl, pours }) => {
    const took = notNegative('inMl', inMl) - notNegative('leftMl', leftMl);
    return took - sumOf(pours) - prior.potMl;
  });
  const factor = informationOf(rows, size);
  const pull = new Array<number>(size).fill(0);
  for (const [run, row] of rows.entries()) {
    for (const [at, x] of row.entries()) pull[at] = (pull[at] ?? 0) + x * (off[run] ?? 0);
  }
  const found = solved(factor, pull);
  const freedom = prior.freedom + runs.length;
  // The sum of squares about what is found, the prior's part with it.
  const squares =
    prior.freedom * prior.noiseSdMl ** 2 +
    Math.max(0, off.reduce((sum, one) => sum + one ** 2, 0) - dot(found, pull));
  return {
    runs: runs.length,
    runsOf,
    potMl: prior.potMl + (found[0] ?? 0),
    shareOf: (mouldId) => (found[1] ?? 0) + (found[places.get(mouldId) ?? -1] ?? 0),
    doubtOf: (pours) => {
      const row = rowOf(pours);
      const spread = 1 + dot(row, solved(factor, row));
      return { sdMl: Math.sqrt((squares / freedom) * spread), freedom };
    },
  };
}

/** What to heat for these pours out of one pot; nothing to pour needs nothing. */
export function heatFor(learnt: LearntLoss, pours: readonly Pour[]): Heat {
  const shouldMl = sumOf(pours);
  const runs = Math.min(
    learnt.runs,
    ...pours.map(({ mouldId }) => learnt.runsOf.get(mouldId) ?? 0),
  );
  const isGuess = runs < enoughRuns;
  if (shouldMl === 0) return { shouldMl, heatMl: 0, lowMl: 0, highMl: 0, runs, isGuess };
  const heatMl = Math.max(0, learnt.potMl + perRoundMl(learnt, pours));
  const { sdMl, freedom } = learnt.doubtOf(pours);
  const reach = ninth(freedom) * sdMl;
  return {
    shouldMl,
    heatMl,
    lowMl: Math.max(0, heatMl - reach),
    highMl: heatMl + reach,
    runs,
    isGuess,
  };
}

/**
 * Whole rounds that so much in one pot is good for, beside what was `past` poured from it; null: a
 * round takes nothing.
 */
export function roundsFrom(
  learnt: LearntLoss,
  haveMl: number,
  round: readonly Pour[],
  past: readonly Pour[] = [],
): number | null {
  const eachMl = perRoundMl(learnt, round);
  if (eachMl <= 0) return null;
  const free = notNegative('haveMl', haveMl) - learnt.potMl - perRoundMl(learnt, past);
  return Math.max(0, Math.floor((free / eachMl) * (1 + 1e-12)));
}

/** So many rounds of the same pours. */
export function timesPours(pours: readonly Pour[], times: number): Pour[] {
  return pours.map(({ mouldId, shouldMl }) => ({ mouldId, shouldMl: shouldMl * times }));
}

/**
 * The point that Student's t stays below nine times in ten, from 4 degrees of freedom up: the normal
 * one with the expansion of Fisher (Abramowitz and Stegun 26.7.5), good to 4 places.
 */
export function ninth(freedom: number): number {
  const z = 1.2815515655446004;
  const [z3, z5, z7] = [z ** 3, z ** 5, z ** 7];
  return (
    z +
    (z3 + z) / (4 * freedom) +
    (5 * z5 + 16 * z3 + 3 * z) / (96 * freedom ** 2) +
    (3 * z7 + 19 * z5 + 17 * z3 - 15 * z) / (384 * freedom ** 3)
  );
}

function perRoundMl(learnt: LearntLoss, pours: readonly Pour[]): number {
  return pours.reduce(
    (sum, { mouldId, shouldMl }) => sum + shouldMl * (1 + learnt.shareOf(mouldId)),
    0,
  );
}

/** What prior and pots together tell, in units of the noise: the prior on the diagonal, X'X on top. */
function informationOf(rows: readonly (readonly number[])[], size: number): Triangle {
  const matrix = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => {
      if (i !== j) return 0;
      return (prior.noiseSdMl / (i === 0 ? prior.potSdMl : prior.shareSd)) ** 2;
    }),
  );
  for (const row of rows) {
    for (const [i, line] of matrix.entries()) {
      for (let j = 0; j < size; j++) line[j] = (line[j] ?? 0) + (row[i] ?? 0) * (row[j] ?? 0);
    }
  }
  const factor = cholesky(matrix);
  if (factor === null) throw new RangeError('These pots cannot be told apart.');
  return factor;
}

function sumOf(pours: readonly Pour[]): number {
  return pours.reduce((sum, { shouldMl }) => sum + notNegative('shouldMl', shouldMl), 0);
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, one, at) => sum + one * (b[at] ?? 0), 0);
}
