import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Lab } from '#calc/colour.ts';
import {
  correctedLab,
  forecastLab,
  type Optics,
  strengthFromPhoto,
} from '#calc/colour-forecast.ts';
import { type PhotographedMix, strengthsFromPhotos } from '#calc/learning.ts';
import { clearOptics } from '#calc/optics.ts';
import { normal, seeded } from '../hands/seeded.ts';
import { expectWithin } from '../hands/within.ts';

/** Dyes that swallow the short, the middle and the long waves. */
const dye = (from: number, to: number): Optics => ({
  absorbPerMm: Array.from({ length: 16 }, (_, band) => (band >= from && band < to ? 0.03 : 0.001)),
  scatterPerMm: 0.003,
});
const dyes: Record<string, Optics> = { yellow: dye(0, 5), red: dye(4, 10), blue: dye(9, 16) };
const ids = Object.keys(dyes);
const body = { thicknessMm: 10, backing: 0.85 };

/** Photos of pairs of dyes whose real strengths are planted, read with some noise in Lab. */
function photographed(
  truth: Readonly<Record<string, number>>,
  count: number,
  noise: number,
): PhotographedMix[] {
  const chance = seeded(7);
  return Array.from({ length: count }, (_, at) => {
    const doses = [ids[at % 3], ids[(at + 1) % 3]].map((id = '') => ({
      id,
      colourant: dyes[id] ?? clearOptics,
      dosePerCup: 1 + Math.floor(4 * chance()),
    }));
    const strong = doses.map((dose) => ({ ...dose, strength: truth[dose.id] ?? 1 }));
    const [l, a, b] = forecastLab({ base: clearOptics, doses: strong, body });
    const photo: Lab = [
      l + noise * normal(chance),
      a + noise * normal(chance),
      b + noise * normal(chance),
    ];
    return { base: clearOptics, doses, body, photo };
  });
}

describe('strength learnt from photos', () => {
  // Planted truths: the answer is known because the photos were made with it.
  test('finds the colourant that is twice as strong as its swatch', () => {
    const found = strengthsFromPhotos(photographed({ red: 2 }, 24, 1.5));
    expectWithin(found.get('red') ?? Number.NaN, 2, 0.2);
    expectWithin(found.get('yellow') ?? Number.NaN, 1, 0.12);
    expectWithin(found.get('blue') ?? Number.NaN, 1, 0.12);
  });

  test('comes nearer to the truth the more photos there are', () => {
    const truth = { yellow: 0.6, red: 1.8, blue: 1.2 };
    const miss = (count: number) => {
      const found = strengthsFromPhotos(photographed(truth, count, 1));
      return Math.max(
        ...ids.map((id) =>
          Math.abs(Math.log((found.get(id) ?? 9) / (truth[id as keyof typeof truth] ?? 1))),
        ),
      );
    };
    const [few, some, many] = [miss(3), miss(12), miss(60)];
    expect(some).toBeLessThan(few);
    expect(many).toBeLessThan(some);
    expect(many).toBeLessThan(0.06);
  });

  test('goes on from where it was, and there it stays', () => {
    const photos = photographed({ yellow: 0.7, red: 2, blue: 1.3 }, 24, 0);
    let found = strengthsFromPhotos(photos);
    for (let again = 0; again < 4; again++) found = strengthsFromPhotos(photos, { start: found });
    const once = strengthsFromPhotos(photos, { start: found });
    for (const id of ids) expectWithin(once.get(id) ?? Number.NaN, found.get(id) ?? 9, 1e-3);
  });

  test('does not mind the order of photos and doses', () => {
    const photos = photographed({ red: 2 }, 9, 2);
    const turned = photos.toReversed().map((mix) => ({ ...mix, doses: mix.doses.toReversed() }));
    const one = strengthsFromPhotos(photos);
    for (const [id, strength] of strengthsFromPhotos(turned)) {
      expectWithin(strength, one.get(id) ?? Number.NaN, 1e-6);
    }
  });

  test('learns nothing from a photo with a fault, from none, or of a dose of nothing', () => {
    const photos = photographed({ red: 2 }, 6, 0);
    const faulty = photos.map((mix) => ({ ...mix, fault: 'patchy' as const }));
    expect(strengthsFromPhotos(faulty).size).toBe(0);
    expect(strengthsFromPhotos([]).size).toBe(0);
    const none = photos.map((mix) => ({
      ...mix,
      doses: mix.doses.map((dose) => ({ ...dose, dosePerCup: dose.id === 'red' ? 0 : 2 })),
    }));
    expect(strengthsFromPhotos(none).has('red')).toBe(false);
    expect(strengthsFromPhotos(photos, { priorSd: 0.35 }).size).toBe(3);
  });

  test('of a colourant that a photo cannot tell of stays as it was swatched', () => {
    const mix = {
      base: clearOptics,
      doses: [{ id: 'clear', colourant: clearOptics, dosePerCup: 5 }],
      body,
    };
    const photo: Lab = [50, 0, 0];
    expect(strengthFromPhoto(mix, photo, 0, { priorSd: null }).strength).toBe(1);
    expect(strengthsFromPhotos([{ ...mix, photo }]).get('clear')).toBe(1);
  });

  test('of one photo is held back by what is believed before', () => {
    const [mix] = photographed({ yellow: 2, red: 1, blue: 1 }, 1, 0);
    if (mix === undefined) throw new Error('There is no mix.');
    const free = strengthFromPhoto(mix, mix.photo, 0, { priorSd: null });
    const held = strengthFromPhoto(mix, mix.photo, 0);
    const tight = strengthFromPhoto(mix, mix.photo, 0, { priorSd: 0.01 });
    expectWithin(free.strength, 2, 1e-4);
    expectWithin(free.deltaE, 0, 1e-3);
    expect(held.strength).toBeLessThan(free.strength);
    expect(held.strength).toBeGreaterThan(tight.strength);
    expectWithin(tight.strength, 1, 0.02);
  });
});

describe('a forecast moved by what was missed', () => {
  const lab = fc.tuple(
    fc.double({ min: 0, max: 100, noNaN: true }),
    fc.double({ min: -100, max: 100, noNaN: true }),
    fc.double({ min: -100, max: 100, noNaN: true }),
  );

  test('goes half of the way after one photo of the same mix, three quarters after three', () => {
    // By hand: w = 1, so n / (1 + n).
    const shown = { forecast: [50, 0, 0], photo: [58, 4, -8] } as const;
    expect(correctedLab([50, 0, 0], [shown])).toEqual([54, 2, -4]);
    expect(correctedLab([50, 0, 0], [shown, shown, shown])).toEqual([56, 3, -6]);
  });

  test('does not mind the order of the photos and never moves further than the largest miss', () => {
    fc.assert(
      fc.property(
        lab,
        fc.array(fc.record({ forecast: lab, photo: lab }), { maxLength: 6 }),
        (forecast, history) => {
          const moved = correctedLab(forecast, history);
          const turned = correctedLab(forecast, history.toReversed());
          for (const at of [0, 1, 2] as const) {
            expectWithin(turned[at], moved[at], 1e-9);
            const misses = history.map((shown) => Math.abs(shown.photo[at] - shown.forecast[at]));
            expect(Math.abs(moved[at] - forecast[at])).toBeLessThanOrEqual(
              Math.max(0, ...misses) + 1e-9,
            );
          }
        },
      ),
    );
  });

  test('is not moved by mixes that look quite different', () => {
    const far = { forecast: [95, 90, 90], photo: [50, 0, 0] } as const;
    for (const [at, part] of correctedLab([10, -40, -40], [far]).entries()) {
      expectWithin(part, [10, -40, -40][at] ?? Number.NaN, 1e-6);
    }
  });
});

describe('what cannot be is refused', () => {
  const mix = {
    base: clearOptics,
    doses: [{ id: 'red', colourant: dye(4, 10), dosePerCup: 3 }],
    body,
  };
  const none = { ...mix, doses: mix.doses.map((dose) => ({ ...dose, dosePerCup: 0 })) };
  test.each([
    ['a dose that is not there', () => strengthFromPhoto(mix, [50, 0, 0], 1)],
    ['a dose between two', () => strengthFromPhoto(mix, [50, 0, 0], 0.5)],
    ['a dose of nothing', () => strengthFromPhoto(none, [50, 0, 0], 0)],
    ['a NaN photo', () => strengthFromPhoto(mix, [Number.NaN, 0, 0], 0)],
    ['a belief of no width', () => strengthFromPhoto(mix, [50, 0, 0], 0, { priorSd: 0 })],
    ['a photo without error', () => strengthFromPhoto(mix, [50, 0, 0], 0, { photoDeltaE: 0 })],
    [
      'a NaN start',
      () =>
        strengthsFromPhotos([{ ...mix, photo: [50, 0, 0] }], {
          start: new Map([['red', Number.NaN]]),
        }),
    ],
    ['a NaN forecast', () => correctedLab([Number.NaN, 0, 0], [])],
    [
      'a NaN in the history',
      () => correctedLab([50, 0, 0], [{ forecast: [50, 0, 0], photo: [Number.NaN, 0, 0] }]),
    ],
    ['a width of nothing', () => correctedLab([50, 0, 0], [], { widthLab: 0 })],
    ['a negative weight', () => correctedLab([50, 0, 0], [], { priorWeight: -1 })],
  ])('%s', (_, run) => {
    expect(run).toThrow(RangeError);
  });
});
