import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { smallestBaseMl } from '#calc/dose.ts';
import { largeEnoughMl, type MixBody, pouredDoses, pouredSide, scaledMix } from '#calc/mix.ts';
import type { Dose, DoseUnit, MixSide } from '#model/mix.ts';
import { id } from '../hands/log.ts';
import { expectNear, expectWithin } from '../hands/within.ts';

interface Row {
  id: string;
  args: [{ amount: number; step: number }[], { baseMl: number }];
  expect: { counts: number[]; baseMl: number; worstRatio: number };
  tol: number;
}

const rows = JSON.parse(
  readFileSync(new URL('../fixtures/checks/colour-plan.json', import.meta.url), 'utf8'),
) as Row[];
const row = (name: string) => rows.find((one) => one.id === name) as Row;

const dose = (number: number, amount: number, unit: DoseUnit = 'drop', isPinned = false): Dose => ({
  materialId: id('material', number),
  name: `Material ${number}`,
  amount,
  unit,
  isPinned,
});
const side = (doses: Dose[]): MixSide => ({
  role: 'only',
  name: 'Peat',
  swatch: '#5b4029',
  plastisolId: null,
  doses,
});
const stepOf = (unit: DoseUnit) => (unit === 'tsp' ? 0.125 : 1);

const someDose = fc.record({
  amount: fc.double({ min: 0.2, max: 60, noNaN: true }),
  unit: fc.constantFrom<DoseUnit>('drop', 'tsp', 'g', 'mL'),
  isPinned: fc.boolean(),
});
const someMix = fc
  .record({
    baseMl: fc.double({ min: 50, max: 2_000, noNaN: true }),
    doses: fc.array(someDose, { minLength: 1, maxLength: 6 }),
  })
  .map(
    ({ baseMl, doses }): MixBody => ({
      baseMl,
      sides: [side(doses.map((one, at) => dose(at, one.amount, one.unit, one.isPinned)))],
    }),
  );
const someMl = fc.double({ min: 50, max: 4_000, noNaN: true });

describe('a scaled mix', () => {
  test('scaled twice is the mix scaled once, dose by dose', () => {
    fc.assert(
      fc.property(someMix, someMl, someMl, (mix, first, second) => {
        const twice = scaledMix(scaledMix(mix, first), second);
        const once = scaledMix(mix, second);
        expect(twice.baseMl).toBe(once.baseMl);
        twice.sides[0]?.doses.forEach((one, at) => {
          expectNear(one.amount, once.sides[0]?.doses[at]?.amount ?? 0, 1e-12);
        });
      }),
    );
  });

  test('leaves the mix it was made from, and its pinned doses, alone', () => {
    fc.assert(
      fc.property(someMix, someMl, (mix, toMl) => {
        const before = structuredClone(mix);
        const scaled = scaledMix(mix, toMl);
        expect(mix).toEqual(before);
        mix.sides[0]?.doses.forEach((one, at) => {
          const same = scaled.sides[0]?.doses[at]?.amount;
          if (one.isPinned) expect(same).toBe(one.amount);
          else expectNear(same ?? 0, (one.amount * toMl) / mix.baseMl, 1e-12);
        });
      }),
    );
  });
});

describe('a side as it is measured out', () => {
  // Rows of methods-colour-plan section 4: exhaustive search in another program.
  test.each(['D05', 'D06', 'D07'])('is the one of row %s', (name) => {
    const { args, expect: wanted, tol } = row(name);
    const [doses, { baseMl }] = args;
    const poured = pouredSide(
      side(doses.map(({ amount, step }, at) => dose(at, amount, step === 1 ? 'drop' : 'tsp'))),
      baseMl,
    );
    const counts = poured.lines.map(({ amount, dose: { unit } }) => amount / stepOf(unit));
    expect(counts).toEqual(wanted.counts);
    expectWithin(poured.baseMl, wanted.baseMl, tol);
    expectWithin(poured.worstShare, wanted.worstRatio, tol);
  });

  test('has whole drops and eighths only, none rounded away, in a base up to a tenth larger', () => {
    fc.assert(
      fc.property(someMix, ({ sides: [one], baseMl }) => {
        if (!one) return;
        const poured = pouredSide(one, baseMl);
        expect(poured.baseMl).toBeGreaterThanOrEqual(baseMl);
        expect(poured.baseMl).toBeLessThanOrEqual(baseMl * 1.1 * (1 + 1e-12));
        expect(pouredDoses(poured).map(({ unit }) => unit)).toEqual(
          one.doses.map(({ unit }) => unit),
        );
        for (const { amount, dose: of } of poured.lines) {
          expect(amount).toBeGreaterThan(0);
          if (of.unit === 'drop') expect(Number.isInteger(amount)).toBe(true);
          if (of.unit === 'tsp') expect(Number.isInteger(amount * 8)).toBe(true);
        }
      }),
    );
  });

  test('errs by no more than sqrt(1 + 1/m) - 1, where m is its smallest dose in whole steps', () => {
    // The bound of methods-colour-plan section 4 (Huntington and Hill).
    fc.assert(
      fc.property(someMix, ({ sides: [one], baseMl }) => {
        if (!one) return;
        const poured = pouredSide(one, baseMl);
        const counted = poured.lines.filter(
          ({ dose: { unit, isPinned } }) => !isPinned && (unit === 'drop' || unit === 'tsp'),
        );
        const least = Math.floor(
          Math.min(...counted.map(({ wanted, dose: { unit } }) => wanted / stepOf(unit))),
        );
        if (counted.length === 0 || least < 1) return;
        const bound = Math.sqrt(1 + 1 / least) - 1;
        expect(poured.worstShare).toBeLessThanOrEqual(bound + 1e-9);
        for (const { errorShare } of counted) {
          const error = Math.abs(Math.log1p(errorShare));
          expect(error).toBeLessThanOrEqual(Math.log1p(bound) + 1e-9);
        }
      }),
    );
  });

  test('says of each line what it errs by, so that the amounts can be worked back', () => {
    fc.assert(
      fc.property(someMix, ({ sides: [one], baseMl }) => {
        if (!one) return;
        const { lines, baseMl: toMl } = pouredSide(one, baseMl);
        for (const { amount, errorShare, wanted, dose: of } of lines) {
          const asked = of.isPinned ? wanted : (wanted * toMl) / baseMl;
          expectNear(amount / (1 + errorShare), asked, 1e-9);
        }
      }),
    );
  });

  test('of hundreds of drops is rounded plainly, and of nothing is nothing', () => {
    const many = pouredSide(side([dose(1, 1_234.4)]), 240);
    expect(many).toMatchObject({ baseMl: 240, lines: [{ amount: 1_234 }] });
    expect(pouredSide(side([]), 240)).toEqual({ lines: [], baseMl: 240, worstShare: 0 });
  });
});

describe('a pot that is too small', () => {
  test('is told the next size in which every dose comes out', () => {
    // Row D09: half a drop in a cup needs two cups.
    const [doses] = row('D09').args;
    const cup = 236.5882365;
    const mix = {
      baseMl: cup,
      sides: [
        side(doses.map(({ amount, step }, at) => dose(at, amount, step === 1 ? 'drop' : 'tsp'))),
      ],
    };
    const enough = largeEnoughMl(mix, cup / 4) ?? 0;
    const least = smallestBaseMl(doses, cup);
    expect(enough).toBeLessThanOrEqual(least + 1e-6);
    // With up to a tenth more base the step before two cups already keeps within 15 %.
    expect(enough).toBeGreaterThan(least * 0.75);
    const tried = scaledMix(mix, enough);
    const [one] = tried.sides;
    expect(one && pouredSide(one, enough).worstShare).toBeLessThanOrEqual(0.15);
  });

  test('is left alone when it is large enough, and told nothing when no size will do', () => {
    const fine = { baseMl: 240, sides: [side([dose(1, 12)])] };
    expect(largeEnoughMl(fine, 60)).toBe(240);
    expect(largeEnoughMl({ baseMl: 240, sides: [side([dose(1, 0.001)])] }, 60)).toBeNull();
  });
});
