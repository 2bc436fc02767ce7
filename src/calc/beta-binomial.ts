import { betweenZeroAndOne, wholeFrom } from '#calc/counts.ts';
import { positive, zeroToOne } from '#calc/range.ts';

/** Below this a correlation is the independent case to all digits; at 1 the shapes would vanish. */
const leastRho = 1e-12;
const leastSize = 1e-9;

/**
 * Chances of 0, 1, ... n successes when the chance of one is itself Beta(a, b): the beta-binomial
 * law (Skellam 1948), by recurrence from its likeliest count and normalised, so that neither a
 * long run nor a sharp prior costs digits. Throws a RangeError unless n is whole and a, b > 0.
 */
export function betaBinomial(n: number, a: number, b: number): Float64Array {
  wholeFrom(0, 'n', n);
  positive('a', a);
  positive('b', b);
  const shares = new Float64Array(n + 1);
  const start = likeliest(n, a, b);
  shares[start] = 1;
  let sum = 1;
  let share = 1;
  for (let k = start; k < n && share > 0; k++) {
    share *= ((n - k) * (a + k)) / ((k + 1) * (b + n - k - 1));
    shares[k + 1] = share;
    sum += share;
  }
  share = 1;
  for (let k = start; k > 0 && share > 0; k--) {
    share *= (k * (b + n - k)) / ((n - k + 1) * (a + k - 1));
    shares[k - 1] = share;
    sum += share;
  }
  for (let k = 0; k <= n; k++) shares[k] = (shares[k] ?? 0) / sum;
  return shares;
}

/**
 * The same law told by its mean share and by how alike two of the n are; rho = 0 is the binomial.
 * Throws a RangeError unless 0 < mean < 1 and 0 <= rho <= 1.
 */
export function likeCounts(n: number, mean: number, rho: number): Float64Array {
  betweenZeroAndOne('mean', mean);
  const size = Math.max(leastSize, 1 / Math.max(leastRho, zeroToOne('rho', rho)) - 1);
  return betaBinomial(n, mean * size, (1 - mean) * size);
}

/** A count from which the chances fall on both sides, or, below shape 1, an end they dip away from. */
function likeliest(n: number, a: number, b: number): number {
  if (a <= 1) return 0;
  if (b <= 1) return n;
  return Math.min(n, Math.max(0, Math.floor(((n + 1) * (a - 1)) / (a + b - 2))));
}
