import { describe, expect, test } from 'vitest';
import {
  gateDropPa,
  gateShearPerSec,
  mlPerMm,
  roundLoadMl,
  slotDropPa,
  smallestInjector,
  strokeMm,
} from '#calc/injector.ts';
import { mmFromIn, toMl } from '#calc/units.ts';
import { expectNear, expectWithin } from '../hands/within.ts';

describe('the plunger', () => {
  test('of 1.5 in pushes 1.14 mL per mm', () => {
    // A40. Derived from pi D^2 / 4.
    expectNear(mlPerMm(38.1), 1.140092, 1e-5);
    expectNear(mlPerMm(38.1) * 25.4, 28.95833, 1e-5);
    expectNear(strokeMm(90, 38.1), 78.941, 1e-5);
    expectNear(mlPerMm(25.4), 0.5067, 1e-4);
  });

  test('of the published rheometer flows as its manual says', () => {
    // A41. Capillary-rheometer manual P/N 974194 Rev A, p. 55: 10 mm in 4.5 s, 159 mm3/s, 9.541 cm3/min.
    const mlPerSec = (mlPerMm(9.545) * 10) / 4.5;
    expectNear(mlPerSec * 1000, 159, 1e-3);
    expectNear(mlPerSec * 60, 9.541, 1e-3);
  });

  test('with the larger bore is slower for one flow and fills faster at one speed', () => {
    // A54. Common practice for the rule, no source; derived: the square of 1.25 / 1.5.
    const wide = mlPerMm(mmFromIn(1.5));
    const narrow = mlPerMm(mmFromIn(1.25));
    expectWithin(narrow / wide, 0.694, 1e-3);
    expectWithin(wide / narrow, 1.44, 1e-3);
  });

  test('needs a bore', () => {
    expect(() => mlPerMm(0)).toThrow(/^boreMm must be/);
    expect(() => strokeMm(-1, 38.1)).toThrow(/^volumeMl must be/);
  });
});

describe('the gate', () => {
  test('of the published rheometer shears and resists as its manual says', () => {
    // A42. Same manual, p. 55: 800 N, die 1 x 20 mm, 20 mm/min: wall stress 139800 Pa, 575 Pa.s.
    const flow = (mlPerMm(9.545) * 20) / 60;
    expectNear(gateShearPerSec(flow, 1), 242.95, 1e-3);
    const die = { gateMm: 1, lengthMm: 20, viscosityPaSec: 575 };
    const drop = gateDropPa(flow, die);
    expectNear((drop * 0.5) / (2 * 20), 139_800, 1e-3);
    expectNear(drop * mlPerMm(9.545) * 1e-3, 800, 1e-3);
  });

  test('of 4 mm at 7.5 mL/s shears and resists as computed', () => {
    // A43. Derived; 1 Pa.s is a placeholder from memory.
    expectNear(gateShearPerSec(7.5, 4), 1193.66, 1e-4);
    const gate = { gateMm: 4, lengthMm: 10, viscosityPaSec: 1 };
    expectNear(gateDropPa(7.5, gate), 11_936.6, 1e-4);
    // Methods section 5, derived: 3 mm instead of 4.
    expectNear(gateShearPerSec(7.5, 3), 2829, 1e-3);
    expectNear(gateDropPa(7.5, { ...gate, gateMm: 3 }), 37_700, 1e-3);
  });

  test('resists twice as much at twice the flow', () => {
    const gate = { gateMm: 4, lengthMm: 10, viscosityPaSec: 1 };
    expectNear(gateDropPa(15, gate), 2 * gateDropPa(7.5, gate), 1e-12);
    expect(gateDropPa(0, gate)).toBe(0);
  });

  test('needs a bore and a liquid', () => {
    const gate = { gateMm: 4, lengthMm: 10, viscosityPaSec: 1 };
    expect(() => gateShearPerSec(1, 0)).toThrow(/^gateMm must be/);
    expect(() => gateDropPa(1, { ...gate, viscosityPaSec: 0 })).toThrow(/^viscosityPaSec must be/);
    expect(() => gateDropPa(Number.NaN, gate)).toThrow(/^flowMlPerSec must be/);
  });
});

describe('the vents', () => {
  const vent = { widthMm: 5, heightMm: 0.1, lengthMm: 5, viscosityPaSec: 2.3e-5 };

  test('hold back less air the more of them there are', () => {
    // A44. Derived; air of 2.3e-5 Pa.s.
    expectNear(slotDropPa(7.5, vent), 2070, 1e-4);
    expectNear(slotDropPa(7.5, { ...vent, vents: 8 }), 258.75, 1e-4);
  });

  test('are at least open and at least there', () => {
    expect(() => slotDropPa(7.5, { ...vent, heightMm: 0 })).toThrow(/^heightMm must be/);
    expect(() => slotDropPa(7.5, { ...vent, vents: 0 })).toThrow(/^vents must be/);
  });
});

describe('the load', () => {
  const rack = [10, 4, 2, 6].map((floz) => ({ floz, capacityMl: toMl(floz, 'floz') }));

  test('for two moulds of slim baits just fits a 4 fl oz injector', () => {
    // A53. Common practice, no source: 15 baits of 6 mL, 15 mL of sprue, a tenth more.
    const moulds = [
      { cavities: 8, partMl: 6, sprueMl: 8 },
      { cavities: 7, partMl: 6, sprueMl: 7 },
    ];
    const loadMl = roundLoadMl(moulds);
    expectWithin(loadMl, 115.5, 0.1);
    expect(smallestInjector(rack, loadMl)?.floz).toBe(4);
  });

  test('for one mould of eight is 92.4 mL', () => {
    // Methods section 5, derived: 8 x 9 + 12 = 84 mL; the margin is common practice, no source.
    const mould = { cavities: 8, partMl: 9, sprueMl: 12 };
    expectWithin(roundLoadMl([mould]), 92.4, 1e-9);
    expectWithin(roundLoadMl([mould], 0), 84, 1e-9);
    expectWithin(roundLoadMl([mould]) / toMl(1, 'floz'), 3.124, 1e-3);
  });

  test('that fills an injector to the brim still fits it', () => {
    expect(smallestInjector(rack, toMl(6, 'floz'))?.floz).toBe(6);
  });

  test('that no injector holds has none', () => {
    expect(smallestInjector(rack, 300)).toBeNull();
    expect(smallestInjector([], 0)).toBeNull();
  });

  test('of nothing is nothing, of less than nothing is refused', () => {
    expect(roundLoadMl([])).toBe(0);
    expect(() => roundLoadMl([{ cavities: -1, partMl: 9, sprueMl: 0 }])).toThrow(/^cavities/);
    expect(() => smallestInjector(rack, Number.NaN)).toThrow(/^loadMl must be/);
  });
});
