/** Two unknowns, or one number for each of them. */
export type Pair = readonly [number, number];

/** What is to be fitted: where to begin, where to stay, and how far off a guess is. */
export interface PairFit {
  start: Pair;
  lowest: Pair;
  highest: Pair;
  /** Each in units of its own standard deviation; priors are residuals like any other. */
  residuals: (guess: Pair) => readonly number[];
}

/** The pair of least squares and its standard errors. */
export interface FittedPair {
  best: Pair;
  standardError: Pair;
}

/** J'J and J'r of one guess. */
interface Normal {
  aa: number;
  ab: number;
  bb: number;
  ar: number;
  br: number;
}

/** Far readings make a long flat valley, in which each step is short. */
const ROUNDS = 200;

/**
 * Least squares in two unknowns by Levenberg and Marquardt, kept inside its bounds.
 *
 * Only ever takes a step that brings the sum of squares down, so that the answer is finite and never
 * worse than the start, whatever the residuals do.
 */
export function fittedPair(fit: PairFit): FittedPair {
  let best = bounded(fit, fit.start);
  let cost = costOf(fit, best);
  let damping = 1e-3;
  for (let round = 0; round < ROUNDS && damping < 1e12; round++) {
    const normal = heldAtBounds(fit, best, normalOf(fit, best));
    let moved = Infinity;
    while (damping < 1e12) {
      const next = bounded(fit, stepped(best, normal, damping));
      const nextCost = costOf(fit, next);
      damping *= nextCost < cost ? 0.1 : 10;
      if (!(nextCost < cost)) continue;
      moved = Math.abs(next[0] - best[0]) + Math.abs(next[1] - best[1]);
      best = next;
      cost = nextCost;
      break;
    }
    if (moved < 1e-10) break;
  }
  return { best, standardError: standardErrorOf(fit, best) };
}

function costOf(fit: PairFit, guess: Pair): number {
  let sum = 0;
  for (const residual of fit.residuals(guess)) sum += residual ** 2;
  return sum;
}

function bounded(fit: PairFit, [a, b]: Pair): Pair {
  return [
    Math.min(fit.highest[0], Math.max(fit.lowest[0], a)),
    Math.min(fit.highest[1], Math.max(fit.lowest[1], b)),
  ];
}

/**
 * The normal equations without an unknown that stands at its bound and is pushed against it.
 *
 * Left in, it would drag the other one along a slope that the bound cuts off.
 */
function heldAtBounds({ lowest, highest }: PairFit, [a, b]: Pair, normal: Normal): Normal {
  const { aa, bb, ar, br } = normal;
  if ((a <= lowest[0] && ar > 0) || (a >= highest[0] && ar < 0)) {
    return { aa, ab: 0, bb, ar: 0, br };
  }
  if ((b <= lowest[1] && br > 0) || (b >= highest[1] && br < 0)) {
    return { aa, ab: 0, bb, ar, br: 0 };
  }
  return normal;
}

/** One damped Gauss-Newton step; where the numbers overflow it stays where it is. */
function stepped(from: Pair, { aa, ab, bb, ar, br }: Normal, damping: number): Pair {
  const a = aa * (1 + damping);
  const b = bb * (1 + damping);
  const determinant = a * b - ab ** 2;
  const next: Pair = [
    from[0] - (b * ar - ab * br) / determinant,
    from[1] - (a * br - ab * ar) / determinant,
  ];
  return Number.isFinite(next[0] + next[1]) ? next : from;
}

function normalOf(fit: PairFit, guess: Pair): Normal {
  const normal = { aa: 0, ab: 0, bb: 0, ar: 0, br: 0 };
  const { byA, byB } = slopes(fit, guess);
  for (const [i, residual] of fit.residuals(guess).entries()) {
    const a = byA[i] ?? 0;
    const b = byB[i] ?? 0;
    normal.aa += a * a;
    normal.ab += a * b;
    normal.bb += b * b;
    normal.ar += a * residual;
    normal.br += b * residual;
  }
  return normal;
}

/** Derivatives of the residuals by the first and by the second unknown. */
function slopes(fit: PairFit, [a, b]: Pair): { byA: number[]; byB: number[] } {
  const reach = 1e-5;
  const between = (low: Pair, high: Pair) => {
    const lower = fit.residuals(low);
    return fit.residuals(high).map((value, i) => (value - (lower[i] ?? 0)) / (2 * reach));
  };
  return {
    byA: between([a - reach, b], [a + reach, b]),
    byB: between([a, b - reach], [a, b + reach]),
  };
}

/** Roots of the diagonal of the inverse of J'J, by way of J = QR, which cannot go negative. */
function standardErrorOf(fit: PairFit, best: Pair): Pair {
  const { byA, byB } = slopes(fit, best);
  const lengthA = lengthOf(byA);
  const shared = byA.reduce((sum, a, i) => sum + (a / lengthA) * (byB[i] ?? 0), 0);
  const own = lengthOf(byB.map((b, i) => b - (shared * (byA[i] ?? 0)) / lengthA));
  return [Math.hypot(1 / lengthA, shared / (lengthA * own)), 1 / own];
}

function lengthOf(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0));
}
