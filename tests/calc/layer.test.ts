import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  absorbFor,
  ksRatio,
  layer,
  layerFromCard,
  layerOver,
  reflectanceFromKs,
  stackedReflectance,
} from '#calc/colour-forecast.ts';
import { expectWithin } from '../hands/within.ts';

const absorb = fc.double({ min: 0, max: 2, noNaN: true });
const scatter = fc.double({ min: 0, max: 2, noNaN: true });
const depth = fc.double({ min: 0, max: 20, noNaN: true });
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe('a layer', () => {
  test('gives back no more light than it gets', () => {
    fc.assert(
      fc.property(absorb, scatter, depth, (absorbPerMm, scatterPerMm, thicknessMm) => {
        const { reflectance, transmittance } = layer({ absorbPerMm, scatterPerMm, thicknessMm });
        expect(reflectance).toBeGreaterThanOrEqual(0);
        expect(transmittance).toBeGreaterThanOrEqual(0);
        expect(reflectance + transmittance).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
  });

  test('cut in two and laid together is the same layer', () => {
    // Kubelka 1954: inhomogeneous layers, applied to two of the same stuff.
    fc.assert(
      fc.property(absorb, scatter, depth, share, share, (k, s, thickness, cut, backing) => {
        const slab = { absorbPerMm: k, scatterPerMm: s };
        const whole = layerOver({ ...slab, thicknessMm: thickness, backing });
        const under = layerOver({ ...slab, thicknessMm: thickness * (1 - cut), backing });
        const top = layer({ ...slab, thicknessMm: thickness * cut });
        expectWithin(stackedReflectance(top, under), whole, 1e-9);
      }),
    );
  });

  test('solves the two-flux equations', () => {
    // dI/dx = -(K + S) I + S J, dJ/dx = (K + S) J - S I (Kubelka and Munk 1931), integrated here by
    // Runge-Kutta upwards from the backing, where J = g I.
    for (const [k, s, mm, g] of [
      [0.05, 0.2, 10, 0.85],
      [0.5, 0.02, 8, 0.04],
      [0, 0.3, 6, 0.5],
    ] as const) {
      let [down, up] = [1, g];
      const steps = 4000;
      const h = mm / steps;
      const slope = (i: number, j: number) => [(k + s) * i - s * j, s * i - (k + s) * j] as const;
      for (let step = 0; step < steps; step++) {
        const a = slope(down, up);
        const b = slope(down + (h / 2) * a[0], up + (h / 2) * a[1]);
        const c = slope(down + (h / 2) * b[0], up + (h / 2) * b[1]);
        const d = slope(down + h * c[0], up + h * c[1]);
        down += (h / 6) * (a[0] + 2 * b[0] + 2 * c[0] + d[0]);
        up += (h / 6) * (a[1] + 2 * b[1] + 2 * c[1] + d[1]);
      }
      const found = layerOver({ absorbPerMm: k, scatterPerMm: s, thicknessMm: mm, backing: g });
      expectWithin(found, up / down, 1e-9);
    }
  });

  test('too thick to see through comes back from its K/S', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1, noNaN: true }), (reflectance) => {
        expectWithin(reflectanceFromKs(ksRatio(reflectance)), reflectance, 1e-9);
      }),
    );
  });

  test('however dense or thick stays a number', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        share,
        (absorbPerMm, scatterPerMm, thicknessMm, backing) => {
          const seen = layerOver({ absorbPerMm, scatterPerMm, thicknessMm, backing });
          expect(seen).toBeGreaterThanOrEqual(0);
          expect(seen).toBeLessThanOrEqual(1);
        },
      ),
    );
  });
});

describe('the card', () => {
  test('tells K and S of any layer that both halves show', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        fc.double({ min: 0.005, max: 0.3, noNaN: true }),
        fc.double({ min: 4, max: 12, noNaN: true }),
        fc.constantFrom(0, 0.04, 0.1),
        (absorbPerMm, scatterPerMm, thicknessMm, black) => {
          const slab = { absorbPerMm, scatterPerMm, thicknessMm };
          const found = layerFromCard({
            overWhite: layerOver({ ...slab, backing: 0.85 }),
            overBlack: layerOver({ ...slab, backing: black }),
            white: 0.85,
            black,
            thicknessMm,
          });
          expectWithin(found.absorbPerMm, absorbPerMm, 1e-5);
          expectWithin(found.scatterPerMm, scatterPerMm, 1e-5);
          const seen = layerOver({ ...slab, backing: 0.85 });
          expectWithin(
            absorbFor(seen, { scatterPerMm, thicknessMm, backing: 0.85 }),
            absorbPerMm,
            1e-9,
          );
        },
      ),
    );
  });

  test('brighter over white than any layer can be absorbs nothing and keeps the black half', () => {
    // By hand: over black 0 the layer shows R0 = 0.3 alone, and K = 0 means S d = R0 / (1 - R0).
    const found = layerFromCard({
      overWhite: 0.95,
      overBlack: 0.3,
      white: 0.85,
      black: 0,
      thicknessMm: 10,
    });
    expect(found.absorbPerMm).toBe(0);
    expectWithin(found.scatterPerMm, 0.3 / 0.7 / 10, 1e-9);
  });

  test('read badly still gives a layer, never less than nothing', () => {
    fc.assert(
      fc.property(share, share, (overWhite, overBlack) => {
        const found = layerFromCard({
          overWhite,
          overBlack,
          white: 0.85,
          black: 0.04,
          thicknessMm: 10,
        });
        expect(found.absorbPerMm).toBeGreaterThanOrEqual(0);
        expect(found.scatterPerMm).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(found.absorbPerMm + found.scatterPerMm)).toBe(true);
      }),
    );
  });
});

describe('a layer that cannot be is refused', () => {
  const slab = { absorbPerMm: 0.1, scatterPerMm: 0.1, thicknessMm: 10 };
  const pair = { overWhite: 0.5, overBlack: 0.3, white: 0.85, black: 0.04, thicknessMm: 9 };
  test.each([
    ['a negative K', () => layer({ ...slab, absorbPerMm: -0.1 })],
    ['a NaN S', () => layer({ ...slab, scatterPerMm: Number.NaN })],
    ['an absurd K', () => layer({ ...slab, absorbPerMm: 1e300 })],
    ['an endless depth', () => layer({ ...slab, thicknessMm: Infinity })],
    ['an absurd depth', () => layer({ ...slab, thicknessMm: 1e300 })],
    ['a backing above 1', () => layerOver({ ...slab, backing: 1.1 })],
    ['a lamp for a layer', () => stackedReflectance({ reflectance: 1, transmittance: 0.5 }, 1)],
    ['a reflectance of 0 for K/S', () => ksRatio(0)],
    ['a negative K/S', () => reflectanceFromKs(-1)],
    ['a NaN reflectance', () => absorbFor(Number.NaN, { ...slab, backing: 0.85 })],
    ['a card of two whites', () => layerFromCard({ ...pair, black: 0.85 })],
    ['a card of no depth', () => layerFromCard({ ...pair, thicknessMm: 0 })],
    ['a patch above 1', () => layerFromCard({ ...pair, overWhite: 1.2 })],
  ])('%s', (_, run) => {
    expect(run).toThrow(RangeError);
  });
});
