import { wholeFrom } from '#calc/counts.ts';
import { finite, notNegative, positive, zeroToOne } from '#calc/range.ts';

/** So much of a colourant, and the step its spoon or dropper can do. */
export interface WantedDose {
  amount: number;
  step: number;
}

/** Doses in whole steps, for a base that is a little larger than asked for, never smaller. */
export interface RoundedDoses {
  counts: number[];
  baseMl: number;
  /** How many times the base that was asked for, 1 or more. */
  scale: number;
  /** Largest share by which a dose is too much, or the base too much for it; 0 when all are exact. */
  worstRatio: number;
}

/** Past so many steps in one dose, rounding is no question and the search would take long. */
const MOST_STEPS = 100_000;

/** Differences this small are rounding of the arithmetic, not of the doses. */
const TIE = 1e-12;

/**
 * Nearest whole number by ratio: up from the geometric mean of its neighbours on, and never 0
 * (Huntington and Hill). RangeError unless above 0.
 */
export function geometricRound(x: number): number {
  const below = Math.floor(positive('x', x));
  return x * x >= below * (below + 1) && x > below ? below + 1 : below;
}

/**
 * Whole steps of every dose and the base to put them in, so that the worst ratio error is the least
 * there can be with up to `mostExtraShare` more base; ties go to the smaller sum of squares, then to
 * the smaller base.
 *
 * The error is at most sqrt(1 + 1/m) - 1 where m >= 1 is the smallest dose in whole steps.
 * RangeError for no doses, doses or steps not above 0, or more than 100,000 steps.
 */
export function roundedDoses(
  wanted: readonly WantedDose[],
  options: { baseMl: number; mostExtraShare?: number },
): RoundedDoses {
  const baseMl = positive('baseMl', options.baseMl);
  const mostScale = 1 + zeroToOne('mostExtraShare', options.mostExtraShare ?? 0.1);
  const steps = stepsOf(wanted);
  let best: Trial | null = null;
  for (const scale of scalesBetweenTurns(steps, mostScale)) {
    const trial = trialOf(
      steps,
      steps.map((x) => geometricRound(scale * x)),
      mostScale,
    );
    if (best === null || isBetter(trial, best)) best = trial;
  }
  if (best === null) throw new RangeError('There is no scale to try.');
  const { counts, scale, worst } = best;
  return { counts, baseMl: baseMl * scale, scale, worstRatio: Math.expm1(worst) };
}

/**
 * Whole numbers in proportion to shares that add up to the total exactly, each within 1 of its part
 * (largest remainder, Hamilton); ties go to the earlier one.
 * RangeError for a negative share or a total with nothing to share it by.
 */
export function largestRemainder(shares: readonly number[], total: number): number[] {
  wholeFrom(0, 'total', total);
  let sum = 0;
  for (const share of shares) sum += notNegative('shares', share);
  if (finite('shares', sum) === 0) {
    if (total > 0) throw new RangeError(`A total of ${total} has nothing to be shared by.`);
    return shares.map(() => 0);
  }
  const quotas = shares.map((share) => (share / sum) * total);
  const counts = quotas.map(Math.floor);
  let left = total;
  for (const count of counts) left -= count;
  const byRest = quotas
    .map((quota, at) => ({ at, rest: quota - Math.floor(quota) }))
    .sort((a, b) => b.rest - a.rest || a.at - b.at);
  for (const { at } of byRest.slice(0, left)) counts[at] = (counts[at] ?? 0) + 1;
  return counts;
}

/** The smallest base, mL, that still takes one whole step of every dose. RangeError as above. */
export function smallestBaseMl(wanted: readonly WantedDose[], baseMl: number): number {
  return positive('baseMl', baseMl) / Math.min(...stepsOf(wanted));
}

/** Eighths of a spoon as a cook writes them: 11 is 1 3/8. RangeError unless whole, 0 or more. */
export function spoonText(eighths: number): string {
  const whole = Math.floor(wholeFrom(0, 'eighths', eighths) / 8);
  const rest = eighths % 8;
  if (rest === 0) return String(whole);
  const part = rest % 4 === 0 ? '1/2' : rest % 2 === 0 ? `${rest / 2}/4` : `${rest}/8`;
  return whole === 0 ? part : `${whole} ${part}`;
}

interface Trial {
  counts: number[];
  scale: number;
  worst: number;
  squares: number;
}

function stepsOf(wanted: readonly WantedDose[]): number[] {
  if (wanted.length === 0) throw new RangeError('There are no doses to round.');
  return wanted.map(({ amount, step }) => {
    const steps = positive('amount', positive('amount', amount) / positive('step', step));
    if (steps > MOST_STEPS) {
      throw new RangeError(`A dose may have at most ${MOST_STEPS} steps, not ${steps}.`);
    }
    return steps;
  });
}

/** A scale inside every stretch on which no dose turns to another whole number. */
function scalesBetweenTurns(steps: readonly number[], mostScale: number): number[] {
  const turns = [1, mostScale];
  for (const x of steps) {
    for (let m = Math.max(Math.floor(x) - 1, 1); Math.sqrt(m * (m + 1)) < mostScale * x; m++) {
      const scale = Math.sqrt(m * (m + 1)) / x;
      if (scale > 1) turns.push(scale);
    }
  }
  turns.sort((a, b) => a - b);
  const between = turns.slice(1).map((turn, at) => ((turns[at] ?? turn) + turn) / 2);
  return [1, ...between];
}

/** The best scale for given counts: the middle of what they ask for, within what is allowed. */
function trialOf(steps: readonly number[], counts: number[], mostScale: number): Trial {
  const asked = steps.map((x, at) => Math.log((counts[at] ?? 1) / x));
  const middle = (Math.min(...asked) + Math.max(...asked)) / 2;
  const ln = Math.min(Math.max(middle, 0), Math.log(mostScale));
  const errors = asked.map((own) => Math.abs(own - ln));
  let squares = 0;
  for (const error of errors) squares += error ** 2;
  return { counts, scale: Math.exp(ln), worst: Math.max(...errors), squares };
}

function isBetter(a: Trial, b: Trial): boolean {
  if (Math.abs(a.worst - b.worst) > TIE) return a.worst < b.worst;
  if (Math.abs(a.squares - b.squares) > TIE) return a.squares < b.squares;
  return a.scale < b.scale - TIE;
}
