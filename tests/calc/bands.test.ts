import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bandsFromLinear, linearFromBands } from '#calc/colour-forecast.ts';
import { expectWithin } from '../hands/within.ts';

const share = fc.double({ min: 0, max: 1, noNaN: true });

describe('bands', () => {
  test('come back to the colour they were made from, and are always a reflectance', () => {
    // Promise of methods-colour-plan section 1.3: 5e-6, always within 0..1.
    fc.assert(
      fc.property(fc.tuple(share, share, share), (linear) => {
        const bands = bandsFromLinear(linear);
        expect(bands).toHaveLength(16);
        for (const band of bands) {
          expect(band).toBeGreaterThanOrEqual(0);
          expect(band).toBeLessThanOrEqual(1);
        }
        for (const [at, value] of linearFromBands(bands).entries()) {
          expectWithin(value, linear[at] ?? Number.NaN, 6e-6);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('the corners of the screen too', () => {
    for (let corner = 0; corner < 8; corner++) {
      const linear: [number, number, number] = [corner & 1, (corner >> 1) & 1, (corner >> 2) & 1];
      for (const [at, value] of linearFromBands(bandsFromLinear(linear)).entries()) {
        expectWithin(value, linear[at] ?? Number.NaN, 6e-6);
      }
    }
  });

  test('of red lie at the long waves, of blue at the short', () => {
    // Physics of the spectrum: 400 nm is violet, 700 nm is red.
    const red = bandsFromLinear([1, 0, 0]);
    const blue = bandsFromLinear([0, 0, 1]);
    expect(red[15]).toBeGreaterThan(0.9);
    expect(red[2]).toBeLessThan(0.1);
    expect(blue[2]).toBeGreaterThan(0.9);
    expect(blue[13]).toBeLessThan(0.1);
  });

  test.each([
    ['a channel above 1', () => bandsFromLinear([1.1, 0, 0])],
    ['a channel below 0', () => bandsFromLinear([0, -0.1, 0])],
    ['a NaN channel', () => bandsFromLinear([0, Number.NaN, 0])],
    ['no bands', () => linearFromBands([])],
    ['15 bands', () => linearFromBands(new Array(15).fill(0.5))],
    ['a NaN band', () => linearFromBands(new Array(16).fill(Number.NaN))],
    ['a band above 1', () => linearFromBands(new Array(16).fill(1.2))],
  ])('%s is refused', (_, run) => {
    expect(run).toThrow(RangeError);
  });
});
