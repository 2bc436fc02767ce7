import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type PhotoFault,
  photoFault,
  tonedReflectance,
  toneExponent,
  whiteBalanced,
} from '#calc/colour.ts';
import { expectWithin } from '../hands/within.ts';

// Working rules of methods-colour-plan section 1.5; the arithmetic is that of a grey card and a
// gamma bend, by hand.
const fair = {
  cardRgb255: [180, 182, 178],
  patchRgb255: [120, 80, 60],
  cardSpread: 0.03,
  patchSpread: 0.05,
} as const;

describe('a photo', () => {
  test.each<[string, Partial<Parameters<typeof photoFault>[0]>, PhotoFault | null]>([
    ['in fair light', {}, null],
    ['with a bait at 252', { patchRgb255: [120, 252, 60] }, 'too bright'],
    ['with a bait at 251', { patchRgb255: [120, 251, 60] }, null],
    ['with a card at 253', { cardRgb255: [253, 180, 180] }, 'too bright'],
    ['with a card at 59', { cardRgb255: [59, 61, 60] }, 'too dark'],
    ['with a card at 60', { cardRgb255: [60, 61, 60] }, null],
    ['under a yellow bulb', { cardRgb255: [210, 150, 90] }, 'coloured light'],
    ['half in shadow', { cardSpread: 0.11 }, 'uneven light'],
    ['at the edge of shadow', { cardSpread: 0.1 }, null],
    ['of flake', { patchSpread: 0.16 }, 'patchy'],
    ['of a fine mottle', { patchSpread: 0.15 }, null],
    ['with lifted shadows', { exponent: 0.69 }, 'altered tones'],
    ['with crushed shadows', { exponent: 1.41 }, 'altered tones'],
    ['with tones a little bent', { exponent: 1.4 }, null],
    ['with two faults, the light first', { patchSpread: 1, cardRgb255: [30, 30, 30] }, 'too dark'],
  ])('%s', (_, change, fault) => {
    expect(photoFault({ ...fair, ...change })).toBe(fault);
  });
});

describe('the card undoes', () => {
  const light = fc.double({ min: 0.05, max: 1, noNaN: true });
  const part = fc.double({ min: 0, max: 0.85, noNaN: true });

  test('any lamp: a patch comes back as it is under white light', () => {
    fc.assert(
      fc.property(fc.tuple(light, light, light), fc.tuple(part, part, part), (lamp, truth) => {
        const seen = (reflectance: readonly [number, number, number]) =>
          [reflectance[0] * lamp[0], reflectance[1] * lamp[1], reflectance[2] * lamp[2]] as [
            number,
            number,
            number,
          ];
        const found = whiteBalanced(seen(truth), seen([0.18, 0.18, 0.18]), 0.18);
        for (const [at, value] of truth.entries()) {
          expectWithin(found[at] ?? Number.NaN, value, 1e-12);
        }
      }),
    );
  });

  test('any bend of the tones that two greys show', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.7, max: 1.4, noNaN: true }), part, (bend, truth) => {
        const seen = (reflectance: number) => 0.9 * (reflectance / 0.85) ** bend;
        const exponent = toneExponent(seen(0.18) / seen(0.85), 0.18 / 0.85);
        const patch = seen(truth);
        const white = seen(0.85);
        const found = tonedReflectance(
          [patch, patch, patch],
          [white, white, white],
          0.85,
          exponent,
        );
        expectWithin(found[0], truth, 1e-9);
      }),
    );
  });
});

describe('a reading that cannot be is refused', () => {
  const grey = [0.2, 0.2, 0.2] as const;
  test.each([
    ['a channel of 300', () => photoFault({ ...fair, patchRgb255: [300, 0, 0] })],
    ['NaN in a channel', () => photoFault({ ...fair, cardRgb255: [Number.NaN, 0, 0] })],
    ['a negative spread', () => photoFault({ ...fair, cardSpread: -0.1 })],
    ['a NaN spread', () => photoFault({ ...fair, patchSpread: Number.NaN })],
    ['no exponent above 0', () => photoFault({ ...fair, exponent: 0 })],
    ['a black card', () => whiteBalanced(grey, [0.2, 0, 0.2], 0.18)],
    ['light above 1', () => whiteBalanced([1.1, 0, 0], grey, 0.18)],
    ['a card of more than all light', () => whiteBalanced(grey, grey, 1.2)],
    ['greys alike', () => toneExponent(1, 0.2)],
    ['a grey of nothing', () => toneExponent(0, 0.2)],
    ['a white of nothing', () => tonedReflectance(grey, [0, 0.2, 0.2], 0.85, 1)],
    ['a bend of nothing', () => tonedReflectance(grey, grey, 0.85, 0)],
    ['a white too dim to divide by', () => tonedReflectance(grey, [5e-324, 0.2, 0.2], 0.85, 3)],
  ])('%s', (_, run) => {
    expect(run).toThrow(RangeError);
  });
});
