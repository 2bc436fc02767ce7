import { describe, expect, test } from 'vitest';
import { skinC } from '#calc/skin.ts';
import { expectWithin } from '../hands/within.ts';

describe('the skin of a bait at the first touch', () => {
  // Row A17 of our method notes: contact of two bodies (Incropera et al. 6e, eq. 5.63), 165 °C on 20 °C.
  test.each([
    ['aluminium', 23.742],
    ['stone', 77.646],
    ['silicone', 92.341],
  ] as const)('on %s', (material, expected) => {
    expectWithin(skinC(material, 165, 20), expected, 0.01);
  });

  test('is that of the mould when both are as warm', () => {
    expectWithin(skinC('silicone', 40, 40), 40, 1e-9);
  });

  test('below absolute zero is refused', () => {
    expect(() => skinC('stone', -300, 20)).toThrow(RangeError);
  });
});
