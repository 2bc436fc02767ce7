import { describe, expect, test } from 'vitest';
import { gloveFit } from '#calc/glove-fit.ts';
import { normal, seeded } from '../hands/seeded.ts';
import { expectNear, expectWithin } from '../hands/within.ts';

// ISO 9241-411 (from memory): the effective width is 4.133 standard deviations, which holds 96 % of a
// normal spread. 72, 96 and 112 px are the three sizes of the table's lesser keys: ours.

/** Six taps that lie this far off in turn, left and right, high and low. */
function taps(dxPx: number, dyPx: number) {
  return [1, -1, 1, -1, 1, -1].map((sign, index) => ({
    dxPx: sign * dxPx,
    dyPx: (index < 3 ? 1 : -1) * dyPx,
  }));
}

describe('the key size for a glove', () => {
  test.each([
    [0, 0, 'usual'],
    [17, 5, 'usual'],
    [18, 5, 'large'],
    [5, 18, 'large'],
    [23, 23, 'large'],
    [24, 0, 'largest'],
    [60, 60, 'largest'],
  ] as const)('that scatters by %i px across and %i px down is %s', (dxPx, dyPx, keySize) => {
    expect(gloveFit(taps(dxPx, dyPx)).keySize).toBe(keySize);
  });

  test('is larger for a glove that always lands too low, however steadily', () => {
    const low = [24, 24, 25, 24, 25, 24].map((dyPx) => ({ dxPx: 0, dyPx }));
    expect(gloveFit(low).keySize).toBe('largest');
  });

  test('is one that 96 in 100 taps of the same spread hit', () => {
    const chance = seeded(411);
    const many = Array.from({ length: 20_000 }, () => ({
      dxPx: 20 * normal(chance),
      dyPx: 8 * normal(chance),
    }));
    const { neededPx } = gloveFit(many);
    expectNear(neededPx, 4.133 * 20, 0.02);
    const hits = many.filter(({ dxPx }) => Math.abs(dxPx) <= neededPx / 2).length;
    expectWithin(hits / many.length, 0.961, 0.005);
  });
});

test('a tap more than half a usual key off, either way, would have missed it', () => {
  const off = [
    { dxPx: 36, dyPx: 36 },
    { dxPx: -37, dyPx: 0 },
    { dxPx: 0, dyPx: 40 },
    { dxPx: 50, dyPx: -50 },
  ];
  expect(gloveFit(off).missed).toBe(3);
});
