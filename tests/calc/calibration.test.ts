import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { calibrate, type HeatCourse, type MouldHeat, mouldHeat, mouldTempC } from '#calc/heat.ts';
import { expectNear, expectWithin } from '../hands/within.ts';

/*
 * Row A30 of the check table (straight line through the logarithms of three readings) touches no
 * function of the product, which uses one method from the first reading on.
 */

/** Worked example of methods section 3: 2 kg, five shots of 85 mL, 270 s apart. */
const heat = mouldHeat({ massKg: 2 });
const course: HeatCourse = {
  ambientC: 21,
  shots: [0, 270, 540, 810, 1080].map((sec) => ({ at: sec * 1000, volumeMl: 85, pourC: 166 })),
};
const readings = [
  [265, 29.5],
  [535, 37],
  [805, 42],
  [1075, 46.5],
  [1380, 50.5],
  [2280, 39.5],
  [3480, 32],
].map(([sec = 0, tempC = 0]) => ({ at: sec * 1000, tempC }));

describe('calibration', () => {
  // A29 and methods section 3. Derived with scipy, least squares with priors.
  test.each([
    [0, 2240, 0.9],
    [1, 2081.6, 0.82806],
    [2, 2075.1, 0.8271],
    [3, 1856.7, 0.828],
    [4, 1776.4, 0.83405],
    [5, 1977, 0.8127],
    [6, 1975.5, 0.8129],
    [7, 2064.8, 0.79958],
  ])('after %d readings finds tau %d s and uptake %d', (count, tauSec, uptake) => {
    const found = calibrate(heat, course, readings.slice(0, count));
    expectNear(found.tauSec, tauSec, 1e-3);
    expectNear(found.uptake, uptake, 1e-3);
  });

  test('says how sure it is', () => {
    // Methods section 3, derived: se 0.0675 and 0.0304 after seven readings, 27 % after four.
    const found = calibrate(heat, course, readings);
    expectWithin(found.seLnTau, 0.0675, 1e-4);
    expectWithin(found.seUptake, 0.0304, 1e-4);
    expectWithin(calibrate(heat, course, readings.slice(0, 4)).seLnTau, 0.27, 0.005);
    const none = calibrate(heat, course, []);
    expectWithin(none.seLnTau, 0.45, 1e-6);
    expectWithin(none.seUptake, 0.15, 1e-6);
    expect(none.rmsK).toBe(0);
  });

  test('agrees with the mean of the posterior summed on a grid', () => {
    // A31. Derived with scipy on a grid of 41 x 41: 2065.4 s, 0.80038, sd 0.0685 and 0.0307.
    const found = calibrate(heat, course, readings);
    expectNear(found.tauSec, 2065.4, 2e-3);
    expectNear(found.uptake, 0.80038, 2e-3);
    expectNear(found.seLnTau, 0.0685, 0.02);
    expectNear(found.seUptake, 0.0307, 0.02);
  });

  test('lets readings by the thousand outvote the prior and become plain least squares', () => {
    // A28. Derived with scipy without priors: tau 2077.45, phi 0.795899, rms 0.35096.
    const thousandfold = readings.flatMap((reading) => Array.from({ length: 1000 }, () => reading));
    const found = calibrate(heat, course, thousandfold);
    expectNear(found.tauSec, 2077.45, 1e-3);
    expectNear(found.uptake, 0.795899, 1e-3);
    expectNear(found.rmsK, 0.35096, 1e-3);
  });

  test('predicts an hour and ten minutes ahead', () => {
    // Methods section 3, derived: 28.51 °C at 4200 s.
    const { tauSec, uptake } = calibrate(heat, course, readings);
    expectWithin(mouldTempC({ ...heat, tauSec, uptake }, course, 4_200_000), 28.51, 0.05);
  });

  test('finds the mould a course was made from', () => {
    const truth: MouldHeat = { ...heat, tauSec: 1500, uptake: 0.7 };
    const seen = Array.from({ length: 200 }, (_, n) => ({
      at: n * 20_000 + 1,
      tempC: mouldTempC(truth, course, n * 20_000 + 1),
    }));
    const found = calibrate(heat, course, seen);
    expectNear(found.tauSec, 1500, 0.005);
    expectNear(found.uptake, 0.7, 0.005);
    expect(found.rmsK).toBeLessThan(0.05);
  });

  test('starts from the uptake it was given, and from 0.9 if nobody gave one', () => {
    expectWithin(calibrate(mouldHeat({ massKg: 2, uptake: 1 }), course, []).uptake, 1, 1e-9);
    expectWithin(calibrate(mouldHeat({ massKg: 2, uptake: 0 }), course, []).uptake, 0, 1e-9);
    expectWithin(calibrate({ capacityJPerK: 1792, tauSec: 2240 }, course, []).uptake, 0.9, 1e-9);
  });

  test('takes a reading stamped with a shot as taken before that shot', () => {
    const stamped = calibrate(heat, course, [{ at: 270_000, tempC: 29.5 }]);
    const before = calibrate(heat, course, [{ at: 269_999, tempC: 29.5 }]);
    expectNear(stamped.tauSec, before.tauSec, 1e-5);
    expectNear(stamped.uptake, before.uptake, 1e-5);
  });

  test('does not ask in which order the readings were written down', () => {
    const shuffled = fc.shuffledSubarray(readings, { minLength: readings.length });
    const inOrder = calibrate(heat, course, readings);
    fc.assert(
      fc.property(shuffled, (mixed) => {
        expect(calibrate(heat, course, mixed)).toEqual(inOrder);
      }),
    );
  });

  test('copes with readings that cannot be true', () => {
    const reading = fc.record({
      at: fc.integer({ min: -864_000_000, max: 864_000_000 }),
      tempC: fc.oneof(
        fc.double({ min: -273, max: 1e9, noNaN: true }),
        fc.double({ min: 0, max: 200, noNaN: true }),
      ),
    });
    const lump = fc.record({
      massKg: fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
      lossWPerK: fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
    });
    fc.assert(
      fc.property(lump, fc.array(reading, { maxLength: 20 }), (body, odd) => {
        const prior = mouldHeat(body);
        const found = calibrate(prior, course, odd);
        for (const value of Object.values(found)) expect(value).toBeGreaterThanOrEqual(0);
        expect(Object.values(found).every(Number.isFinite)).toBe(true);
        expect(found.tauSec).toBeLessThan(prior.tauSec * 20);
        expect(found.uptake).toBeLessThanOrEqual(2);
      }),
    );
  });

  test('fits no worse than the prior or any mould near by, also where the fit stands at a bound', () => {
    const cost = (tauSec: number, uptake: number, seen: typeof readings) =>
      (Math.log(tauSec / heat.tauSec) / 0.45) ** 2 +
      ((uptake - 0.9) / 0.15) ** 2 +
      seen.reduce((sum, { at, tempC }) => {
        const guess = { ...heat, tauSec, uptake };
        return sum + (mouldTempC(guess, course, at - 1e-3) - tempC) ** 2;
      }, 0);
    // Bounds of the fit: 6 sd of 0.45 in ln tau either way, an uptake of 0.05 to 2.
    const isOutside = (tauSec: number, uptake: number) =>
      Math.abs(Math.log(tauSec / heat.tauSec)) > 2.7 || uptake > 2 || uptake < 0.05;
    const noise = fc.array(fc.double({ min: -60, max: 60, noNaN: true }), {
      minLength: 7,
      maxLength: 7,
    });
    fc.assert(
      fc.property(noise, (offs) => {
        const seen = readings.map(({ at, tempC }, i) => ({ at, tempC: tempC + (offs[i] ?? 0) }));
        const { tauSec, uptake } = calibrate(heat, course, seen);
        const found = cost(tauSec, uptake, seen);
        expect(found).toBeLessThanOrEqual(cost(heat.tauSec, 0.9, seen) + 1e-6);
        for (const [more, up] of [
          [1.01, 0],
          [0.99, 0],
          [1, 0.01],
          [1, -0.01],
        ] as const) {
          if (isOutside(tauSec * more, uptake + up)) continue;
          expect(found).toBeLessThanOrEqual(cost(tauSec * more, uptake + up, seen) + 1e-3);
        }
      }),
    );
  });

  test('refuses a reading that is no number, by name', () => {
    expect(() => calibrate(heat, course, [{ at: 0, tempC: Number.NaN }])).toThrow(/^tempC must be/);
    expect(() => calibrate(heat, course, [{ at: Number.NaN, tempC: 20 }])).toThrow(/^at must be/);
    expect(() => calibrate({ ...heat, tauSec: 0 }, course, [])).toThrow(/^tauSec must be/);
  });
});
