import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lbeta, lgamma, pnorm, qnorm } from '#calc/special.ts';

// Whole-number gamma values are factorials; the half is NIST DLMF 5.4.6, Gamma(1/2) = sqrt(pi).
test.each([
  [1, 0],
  [2, 0],
  [5, Math.log(24)],
  [11, Math.log(3628800)],
  [0.5, Math.log(Math.PI) / 2],
  [1.5, Math.log(Math.PI) / 2 - Math.log(2)],
])(
  'lgamma(%d) is the logarithm of the factorial or half-integer value (DLMF 5.4)',
  (x, expected) => {
    expect(Math.abs(lgamma(x) - expected)).toBeLessThan(2e-14);
  },
);

test('lgamma climbs by ln x from x to x + 1, small and large (DLMF 5.5.1)', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (x) => {
      const off = lgamma(x + 1) - lgamma(x) - Math.log(x);
      expect(Math.abs(off)).toBeLessThan(1e-14 * Math.max(10, Math.abs(lgamma(x))));
    }),
  );
});

test('lbeta of whole numbers is the inverse of a binomial coefficient (DLMF 5.12.1)', () => {
  expect(lbeta(3, 18)).toBeCloseTo(-Math.log(3420), 12);
  expect(lbeta(21, 21)).toBeCloseTo(-Math.log(21 * 269128937220), 11);
  expect(lbeta(1, 1e7)).toBeCloseTo(-Math.log(1e7), 12);
});

test('lbeta keeps B(a, b + 1) = B(a, b) b / (a + b), also where lgamma alone would drown it', () => {
  const size = fc.double({ min: 0.01, max: 1e7, noNaN: true });
  fc.assert(
    fc.property(size, size, (a, b) => {
      const step = lbeta(a, b + 1) - lbeta(a, b);
      const expected = -Math.log1p(a / b);
      expect(Math.abs(step - expected)).toBeLessThan(1e-14 * (100 + Math.abs(lbeta(a, b))));
    }),
  );
});

// Abramowitz and Stegun table 26.1 and 26.2 (values from memory, all digits printed there).
test.each([
  [0, 0.5],
  [1, 0.841344746068543],
  [2, 0.977249868051821],
  [2.5, 0.993790334674224],
  [-3, 0.00134989803163],
])('pnorm(%d) is the tabled %d', (z, expected) => {
  expect(pnorm(z)).toBeCloseTo(expected, 14);
});

test('pnorm keeps its digits far out: Q(10) = 7.61985302416053e-24 (Abramowitz and Stegun 26.2)', () => {
  expect(pnorm(-10) / 7.61985302416053e-24).toBeCloseTo(1, 12);
  expect(pnorm(-50)).toBe(0);
  expect(pnorm(50)).toBe(1);
});

test('pnorm joins without a step where the series hands over to the fraction', () => {
  for (const z of [-2.5, 2.5]) {
    const step = pnorm(z + 1e-9) - pnorm(z - 1e-9);
    expect(step / 2e-9).toBeCloseTo(Math.exp(-3.125) / Math.sqrt(2 * Math.PI), 6);
  }
});

// The constants the method names in its section 1.
test.each([
  [0.975, 1.959963984540054],
  [0.95, 1.6448536269514722],
  [0.99, 2.3263478740408408],
])('qnorm(%d) is the standard %d', (p, z) => {
  expect(Math.abs(qnorm(p) - z)).toBeLessThan(1e-12);
  expect(Math.abs(qnorm(1 - p) + z)).toBeLessThan(1e-12);
});

test('qnorm undoes pnorm from deep in one tail to the other', () => {
  fc.assert(
    fc.property(fc.double({ min: -37, max: 5, noNaN: true }), (z) => {
      expect(Math.abs(qnorm(pnorm(z)) - z)).toBeLessThan(1e-9);
    }),
  );
});

test.each([
  ['lgamma(0)', () => lgamma(0)],
  ['lgamma(NaN)', () => lgamma(Number.NaN)],
  ['lgamma(Infinity)', () => lgamma(Number.POSITIVE_INFINITY)],
  ['lbeta(1, -1)', () => lbeta(1, -1)],
  ['pnorm(NaN)', () => pnorm(Number.NaN)],
  ['qnorm(0)', () => qnorm(0)],
  ['qnorm(1)', () => qnorm(1)],
  ['qnorm(NaN)', () => qnorm(Number.NaN)],
])('%s is refused with a RangeError', (_, call) => {
  expect(call).toThrow(RangeError);
});
