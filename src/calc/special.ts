import { betweenZeroAndOne } from '#calc/counts.ts';
import { positive } from '#calc/range.ts';

const lnSqrtTwoPi = Math.log(2 * Math.PI) / 2;

/** From here on six terms of the asymptotic series are exact to the last digit of a double. */
const seriesFrom = 15;

/**
 * Natural logarithm of the gamma function for x > 0, within 1e-14 of it or of its size.
 * Stirling's series, NIST Digital Library of Mathematical Functions 5.11.1, after a shift
 * upwards by 5.5.1. Throws a RangeError outside x > 0.
 */
export function lgamma(x: number): number {
  positive('x', x);
  let product = 1;
  let shifted = x;
  while (shifted < seriesFrom) {
    product *= shifted;
    shifted += 1;
  }
  const far = (shifted - 0.5) * Math.log(shifted) - shifted + lnSqrtTwoPi + seriesRest(shifted);
  return far - Math.log(product);
}

/**
 * Natural logarithm of the beta function for a, b > 0. Large arguments are taken together before
 * they cancel, which a difference of three `lgamma` would not survive.
 * Throws a RangeError outside a, b > 0.
 */
export function lbeta(a: number, b: number): number {
  positive('a', a);
  positive('b', b);
  const small = Math.min(a, b);
  const large = Math.max(a, b);
  const sum = small + large;
  if (large < seriesFrom) return lgamma(small) + lgamma(large) - lgamma(sum);
  const lnLargeShare = Math.log1p(-small / sum);
  const rest = seriesRest(large) - seriesRest(sum);
  if (small < seriesFrom) {
    return lgamma(small) + rest + small - small * Math.log(sum) + (large - 0.5) * lnLargeShare;
  }
  return (
    lnSqrtTwoPi -
    Math.log(large) / 2 +
    seriesRest(small) +
    rest +
    (small - 0.5) * Math.log(small / sum) +
    large * lnLargeShare
  );
}

/**
 * The normal density at z, NIST e-Handbook 1.3.6.6.1.
 */
export function dnorm(z: number): number {
  return Math.exp((-z * z) / 2 - lnSqrtTwoPi);
}

/**
 * Chance that a normal value is at most z, exact to about 13 digits also far out on either side.
 * Power series in the middle, continued fraction in the tails: Abramowitz and Stegun 26.2.11 and
 * 26.2.14. Throws a RangeError for NaN.
 */
export function pnorm(z: number): number {
  if (Number.isNaN(z)) throw new RangeError('The argument of pnorm is not a number.');
  if (z > 2.5) return 1 - upperTail(z);
  if (z < -2.5) return upperTail(-z);
  let term = z;
  let sum = z;
  for (let odd = 3; Math.abs(term) > 1e-18; odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + dnorm(z) * sum;
}

/**
 * The z below which a normal value falls with chance p, 0 < p < 1. Starts from Abramowitz and
 * Stegun 26.2.22 and closes in on `pnorm` by Halley's rule. Throws a RangeError outside (0, 1).
 */
export function qnorm(p: number): number {
  betweenZeroAndOne('p', p);
  if (p === 0.5) return 0;
  if (p > 0.5) return -qnorm(1 - p);
  const t = Math.sqrt(-2 * Math.log(p));
  let z = (2.30753 + 0.27061 * t) / (1 + 0.99229 * t + 0.04481 * t * t) - t;
  for (let turn = 0; turn < 4; turn++) {
    const off = (pnorm(z) - p) / dnorm(z);
    z -= off / (1 + (z * off) / 2);
  }
  return z;
}

function seriesRest(x: number): number {
  const inverse = 1 / x;
  const square = inverse * inverse;
  let sum = -691 / 360360;
  for (const coefficient of [1 / 1188, -1 / 1680, 1 / 1260, -1 / 360, 1 / 12]) {
    sum = sum * square + coefficient;
  }
  return sum * inverse;
}

function upperTail(z: number): number {
  let below = z;
  for (let level = 60; level >= 1; level--) below = z + level / below;
  return dnorm(z) / below;
}
