import { expect } from 'vitest';

/** Fails unless `actual` lies within `tolerance` of `expected`; NaN never does. */
export function expectWithin(actual: number, expected: number, tolerance: number): void {
  const claim = `${actual} should be within ${tolerance} of ${expected}`;
  expect(Math.abs(actual - expected), claim).toBeLessThanOrEqual(tolerance);
}

/** Fails unless `actual` is within a share of `expected`, such as 0.001 for a tenth of a per cent. */
export function expectNear(actual: number, expected: number, share: number): void {
  expectWithin(actual, expected, Math.abs(expected) * share);
}
