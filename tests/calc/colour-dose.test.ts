import { describe, expect, test } from 'vitest';
import { piecesPerG } from '#calc/colour-dose.ts';
import { mmFromIn } from '#calc/units.ts';
import { expectNear } from '../hands/within.ts';

describe('flake', () => {
  // A48 and methods section 6. Derived; sizes from a flake maker's article, .035 and .062 common
  // practice, no source; the density of polyester is from memory.
  test.each([
    [0.008, 405_300],
    [0.015, 115_300],
    [0.025, 41_500],
    [0.035, 21_180],
    [0.04, 16_212],
    [0.062, 6748],
    [0.094, 2936],
  ])('hexagons of %d in from 50 um film are %d to the gram', (inches, pieces) => {
    const found = piecesPerG({ acrossMm: mmFromIn(inches), thicknessUm: 50, cut: 'hex' });
    expectNear(found, pieces, 1e-3);
  });

  test('squares are fewer to the gram by the area of the corners', () => {
    // By hand: 1000 / (1 mm2 x 0.05 mm x 1.38 g/cm3) pieces.
    const square = piecesPerG({ acrossMm: 1, thicknessUm: 50, cut: 'square' });
    expectNear(square, 14_492.75, 1e-5);
    const hex = piecesPerG({ acrossMm: 1, thicknessUm: 50, cut: 'hex' });
    expectNear(square / hex, 0.8660254, 1e-6);
  });

  test('of denser film is fewer to the gram', () => {
    const flake = { acrossMm: 1, thicknessUm: 50, cut: 'square', densityGPerCm3: 2 } as const;
    expectNear(piecesPerG(flake), 10_000, 1e-9);
  });

  test('without width, thickness or mass is refused by name', () => {
    const flake = { acrossMm: 1, thicknessUm: 50, cut: 'hex' } as const;
    expect(() => piecesPerG({ ...flake, acrossMm: 0 })).toThrow(/^acrossMm must be/);
    expect(() => piecesPerG({ ...flake, thicknessUm: Number.NaN })).toThrow(/^thicknessUm must be/);
    expect(() => piecesPerG({ ...flake, densityGPerCm3: -1 })).toThrow(/^densityGPerCm3 must be/);
  });
});
