import { describe, expect, test } from 'vitest';
import { forecastLab } from '#calc/colour-forecast.ts';
import { guessOf, type KnownColourant, nearestPhoto, type PlannedMix } from '#calc/guess.ts';
import { clearOptics } from '#calc/optics.ts';
import { expectWithin } from '../hands/within.ts';

// Rules of methods-colour-plan sections 0 and 1.6.
const optics = { absorbPerMm: new Array<number>(16).fill(0.004), scatterPerMm: 0.002 };
const smoke: KnownColourant = {
  id: 'smoke',
  swatch: { optics, dosePerCup: 4, isOnCard: true },
  glowsOrChanges: false,
  strength: 1,
};
const mixOf = (colourant: KnownColourant, dosePerCup = 4): PlannedMix => ({
  base: clearOptics,
  doses: [{ colourant, dosePerCup }],
  body: { thicknessMm: 10, backing: 0.85 },
  hasUnknownRemelt: false,
});
const forecast = forecastLab({
  base: clearOptics,
  doses: [{ colourant: optics, dosePerCup: 4 }],
  body: { thicknessMm: 10, backing: 0.85 },
});

describe('a guess', () => {
  test('without photos is the forecast, and rough', () => {
    const guess = guessOf(mixOf(smoke), []);
    expect(guess).toMatchObject({ kind: 'guess', lab: forecast, word: 'rough', photos: 0 });
  });

  test('leans on photos of mixes like it and says on how many', () => {
    const photo = [forecast[0] + 2, forecast[1], forecast[2]] as const;
    const like = { forecast, photo };
    const other = { forecast: [forecast[0], 60, 60], photo: [forecast[0], 60, 60] } as const;
    const guess = guessOf(mixOf(smoke), [like, like, like, other]);
    if (guess.kind !== 'guess') throw new Error('There is no guess.');
    expect(guess.photos).toBe(3);
    expectWithin(guess.lab[0], forecast[0] + 1.5, 0.01);
    expect(guess.typicalDeltaE).toBeLessThan(8);
  });

  test('follows what was learnt of a colourant', () => {
    const strong = guessOf(mixOf({ ...smoke, strength: 2 }), []);
    const [darker] = strong.kind === 'guess' ? strong.lab : [100];
    expect(darker).toBeLessThan(forecast[0] - 5);
  });
});

describe('no guess', () => {
  test.each([
    ['without a swatch', mixOf({ ...smoke, swatch: null }), 'no swatch'],
    ['of what glows', mixOf({ ...smoke, glowsOrChanges: true }), 'glows or changes'],
    ['with strange remelt', { ...mixOf(smoke), hasUnknownRemelt: true }, 'remelt without a swatch'],
    ['for five times the dose', mixOf(smoke, 20), 'far from the swatch'],
    ['for a fifth of the dose', mixOf(smoke, 0.8), 'far from the swatch'],
    [
      'for a bait of 3 mm',
      { ...mixOf(smoke), body: { thicknessMm: 3, backing: 0.85 } },
      'unusual body',
    ],
    [
      'from a word alone',
      mixOf({ ...smoke, swatch: { optics, dosePerCup: 4, isOnCard: false } }),
      'too unsure',
    ],
  ])('%s', (_, mix, why) => {
    expect(guessOf(mix, [])).toMatchObject({ kind: 'no guess', why });
  });

  test('names the colourants it is for', () => {
    const mix = mixOf(smoke);
    const lime = { ...smoke, id: 'lime', swatch: null };
    const doses = [...mix.doses, { colourant: lime, dosePerCup: 2 }];
    expect(guessOf({ ...mix, doses }, [])).toEqual({
      kind: 'no guess',
      why: 'no swatch',
      colourantIds: ['lime'],
    });
  });

  test('is not for a colourant of which there is none', () => {
    const mix = mixOf(smoke);
    const doses = [...mix.doses, { colourant: { ...smoke, swatch: null }, dosePerCup: 0 }];
    expect(guessOf({ ...mix, doses }, []).kind).toBe('guess');
  });

  test('four times and a quarter of the dose are still near the swatch', () => {
    expect(guessOf(mixOf(smoke, 16), []).kind).toBe('guess');
    expect(guessOf(mixOf(smoke, 1), []).kind).toBe('guess');
  });

  test('for a negative dose there is an error', () => {
    expect(() => guessOf(mixOf(smoke, -1), [])).toThrow(RangeError);
    expect(() => guessOf(mixOf(smoke, Number.NaN), [])).toThrow(RangeError);
  });
});

describe('the nearest photo', () => {
  test('is the one that looks most alike', () => {
    const found = nearestPhoto(
      [50, 0, 0],
      [
        [80, 0, 0],
        [52, 1, 0],
        [50, 30, 0],
      ],
    );
    expect(found?.at).toBe(1);
    expect(found?.deltaE).toBeLessThan(3);
    expect(nearestPhoto([50, 0, 0], [])).toBeNull();
  });
});
