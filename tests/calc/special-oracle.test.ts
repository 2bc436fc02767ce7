import betaln from '@stdlib/math-base-special-betaln';
import gammaln from '@stdlib/math-base-special-gammaln';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { expect, test } from 'vitest';
import { lbeta, lgamma, pnorm, qnorm } from '#calc/special.ts';
import { seeded } from '../hands/seeded.ts';

// @stdlib is a general reference library with sources of its own; every grid is drawn anew by its seed.

const points = 4_000;

/** A number between two bounds, as often small as large. */
function logSpread(chance: () => number, low: number, high: number): number {
  return Math.exp(Math.log(low) + chance() * (Math.log(high) - Math.log(low)));
}

function worst(pairs: readonly (readonly [own: number, theirs: number])[]): number {
  return Math.max(
    ...pairs.map(([own, theirs]) => Math.abs(own - theirs) / Math.max(1, Math.abs(theirs))),
  );
}

function grid<T>(seed: number, draw: (chance: () => number) => T): T[] {
  const chance = seeded(seed);
  return Array.from({ length: points }, () => draw(chance));
}

test('lgamma is @stdlib’s from a thousandth to ten million', () => {
  const xs = grid(1, (chance) => logSpread(chance, 1e-3, 1e7));
  expect(worst(xs.map((x) => [lgamma(x), gammaln(x)]))).toBeLessThan(3e-13);
});

test('lbeta is @stdlib’s for counts as a shop has them', () => {
  const pairs = grid(2, (chance) => [logSpread(chance, 0.05, 1e5), logSpread(chance, 0.05, 1e5)]);
  expect(worst(pairs.map(([a = 1, b = 1]) => [lbeta(a, b), betaln(a, b)]))).toBeLessThan(3e-13);
});

test('pnorm is @stdlib’s, far out in the tail by its ratio', () => {
  const zs = grid(3, (chance) => -37 + chance() * 45);
  for (const z of zs) {
    const theirs = normalCdf(z, 0, 1);
    expect(Math.abs(pnorm(z) / theirs - 1), `${z}`).toBeLessThan(1e-9);
  }
});

test('qnorm is @stdlib’s down to one in a million, and its cdf agrees far beyond', () => {
  const ps = grid(4, (chance) => logSpread(chance, 1e-12, 0.5));
  for (const p of ps) {
    // Below that @stdlib's own quantile is the rougher one: its cdf gives p back less well.
    expect(Math.abs(normalCdf(qnorm(p), 0, 1) / p - 1), `${p}`).toBeLessThan(1e-11);
    if (p < 1e-6) continue;
    expect(Math.abs(qnorm(p) - normalQuantile(p, 0, 1)), `${p}`).toBeLessThan(1e-10);
    expect(Math.abs(qnorm(1 - p) - normalQuantile(1 - p, 0, 1)), `${1 - p}`).toBeLessThan(1e-9);
  }
});
