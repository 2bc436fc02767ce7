import { describe, expect, test } from 'vitest';
import { deltaE2000, type Lab } from '#calc/colour.ts';
import { dosedSteps } from '#calc/dose-steps.ts';
import { type ColourShop, plainForecast } from '#calc/shop-colours.ts';
import { guessOfSide, lineShares, meetingLine, taughtFor } from '#calc/shop-forecast.ts';
import type { Mix } from '#model/mix.ts';
import { aColourant, aMix, aReadPhoto, drops, opticsOf, trueLab } from '../hands/colours.ts';
import { expectNear, expectWithin } from '../hands/within.ts';

// Rules of methods-colour-plan sections 1.3 to 1.6; forecast, search and correction are checked row by
// row in colour-plan.test.ts, here is what a shop makes of its own records.
const body = { thicknessMm: 10, backing: 0.85 };
const brown = aColourant('Brown', opticsOf(0.012, 0.004, 0, 1, 2, 3, 4, 5));
const ink = aColourant('Ink', opticsOf(0.01, 0.002, 8, 9, 10, 11, 12, 13, 14, 15));
const pearl = aColourant('Pearl', opticsOf(0.001, 0.02));
const materials = [brown, ink, pearl];

function shopOf(mixes: readonly Mix[], more: Partial<ColourShop> = {}): ColourShop {
  return { materials, mixes, photos: [], ...more };
}

function guess(shop: ColourShop, mix: Mix, at = 0, thicknessMm = 10) {
  const side = mix.sides[at];
  if (!side) throw new Error('The mix has no such side.');
  const taught = taughtFor(shop, side.plastisolId);
  return guessOfSide(shop, taught, { mix, side, body: { ...body, thicknessMm } });
}

function labOf(found: ReturnType<typeof guess>): Lab {
  if (found.kind !== 'guess') throw new Error(`No guess: ${found.why}.`);
  return found.lab;
}

describe('a dose counts in the steps of its material', () => {
  const liquid = { unit: 'mL', dropMl: null, teaspoonG: null } as const;
  const powder = { unit: 'g', dropMl: null, teaspoonG: null } as const;
  // A US teaspoon is 4.92892 mL (NIST Handbook 44); a drop of 0.05 mL and 3 g are common practice.
  test.each([
    ['drops of a liquid', 12, 'drop', liquid, 12],
    ['mL of a liquid', 1, 'mL', liquid, 20],
    ['mL of a liquid of small drops', 1, 'mL', { ...liquid, dropMl: 0.02 }, 50],
    ['a teaspoon of a liquid', 1, 'tsp', liquid, 98.578],
    ['a teaspoon of a powder', 1.5, 'tsp', powder, 12],
    ['grams of a powder', 3, 'g', powder, 8],
    ['grams of a light powder', 3, 'g', { ...powder, teaspoonG: 1.5 }, 16],
    // Beside the drop stands what it weighs: 50 drops of 2.4 g are 0.048 g each, so 12 of them 0.576 g.
    ['grams of a liquid of weighed drops', 0.576, 'g', { ...liquid, dropMl: 0.048 }, 12],
    ['grams of a heavy liquid', 0.6, 'g', { ...liquid, densityGPerMl: 1.2 }, 10],
    ['mL of a powder', 4.92892, 'mL', powder, 8],
  ] as const)('%s', (_, amount, unit, material, steps) => {
    expectNear(dosedSteps({ amount, unit }, material) ?? Number.NaN, steps, 1e-4);
  });

  test('or is not weighed', () => {
    expect(dosedSteps({ amount: 1, unit: 'g' }, liquid)).toBeNull();
    expect(dosedSteps({ amount: 1, unit: 'drop' }, powder)).toBeNull();
  });
});

describe('a guess of a shop', () => {
  test('is the same for one cup and for twice of all in two', () => {
    const one = aMix([[drops(brown, 6), drops(pearl, 4)]]);
    const two = aMix([[drops(brown, 12), drops(pearl, 8)]], { cups: 2 });
    const found = labOf(guess(shopOf([one]), one));
    for (const [at, value] of labOf(guess(shopOf([two]), two)).entries()) {
      expectWithin(value, found[at] ?? Number.NaN, 1e-9);
    }
  });

  test('is rough until photos were taken, and leaves out what does not colour', () => {
    const scent = aColourant('Scent', null, { kind: 'scent' });
    const mix = aMix([[drops(brown, 6), drops(scent, 40)]]);
    const shop = shopOf([mix], { materials: [...materials, scent] });
    expect(guess(shop, mix)).toMatchObject({ kind: 'guess', word: 'rough', photos: 0 });
    expect(labOf(guess(shop, mix))).toEqual(trueLab(shop, [drops(brown, 6)], {}));
  });

  test('is refused for what the method cannot do', () => {
    const bare = aColourant('Lime', null);
    const glow = aColourant('Glow', opticsOf(0.03, 0.01, 0), { glowsOrChanges: true });
    const all = { materials: [...materials, bare, glow] };
    const found = (...doses: Parameters<typeof aMix>[0][number][number][]) => {
      const mix = aMix([doses]);
      return guess(shopOf([mix], all), mix);
    };
    expect(found(drops(brown, 6), drops(bare, 2))).toEqual({
      kind: 'no guess',
      why: 'no swatch',
      colourantIds: [bare.id],
    });
    expect(found(drops(glow, 2))).toMatchObject({ why: 'glows or changes' });
    expect(found({ ...drops(brown, 2), unit: 'g' })).toEqual({
      kind: 'no guess',
      why: 'not weighed',
      colourantIds: [brown.id],
    });
    expect(found({ ...drops(bare, 2), unit: 'g' })).toMatchObject({ why: 'no swatch' });
    expect(found(drops(brown, 21))).toMatchObject({ why: 'far from the swatch' });
    const old = aMix([[drops(brown, 6)]]);
    const [side] = old.sides;
    const remelt = { ...old, sides: side ? [{ ...side, hasRemelt: true }] : [] };
    expect(guess(shopOf([remelt]), remelt)).toEqual({
      kind: 'no guess',
      why: 'remelt without a swatch',
    });
    const gone = aMix([[drops(aColourant('Gone', null), 2)]]);
    expect(guess(shopOf([gone]), gone)).toMatchObject({ why: 'no swatch' });
    const thin = aMix([[drops(brown, 6)]]);
    expect(guess(shopOf([thin]), thin, 0, 4)).toMatchObject({ why: 'unusual body' });
  });
});

test('a bait with old plastic in it teaches no strength, and no forecast stands beside its photo', () => {
  const mix = aMix([[drops(brown, 6)]]);
  const pure = shopOf([mix]);
  const photo = aReadPhoto(mix, trueLab(pure, [drops(brown, 6)], { Brown: 2 }), null);
  const taught = taughtFor({ ...pure, photos: [photo] }, null);
  expect(taught.strengths.get(brown.id)).toBeGreaterThan(1);
  const sides = mix.sides.map((side) => ({ ...side, hasRemelt: true }));
  const old = { ...mix, sides };
  const shop = { ...shopOf([old]), photos: [photo] };
  expect(taughtFor(shop, null).strengths.size).toBe(0);
  const [side] = sides;
  if (!side) throw new Error('The mix has no side.');
  expect(plainForecast(shop, old, side, body)).toBeNull();
});

describe('photos teach', () => {
  const truth = { Brown: 1.7 };
  const doses = [
    [drops(brown, 4), drops(pearl, 4)],
    [drops(brown, 6), drops(ink, 2)],
    [drops(brown, 3), drops(ink, 5), drops(pearl, 3)],
    [drops(brown, 9)],
    [drops(ink, 6), drops(pearl, 5)],
  ];
  const mixes = doses.map((side) => aMix([side]));
  const bare = shopOf(mixes);
  const photos = mixes.map((mix, at) => {
    const [side] = mix.sides;
    if (!side) throw new Error('A mix has a side.');
    const forecast = plainForecast(bare, mix, side, body);
    return aReadPhoto(mix, trueLab(bare, doses[at] ?? [], truth), forecast);
  });
  const taught = shopOf(mixes, { photos });

  test('that one colourant is stronger than its swatch, and leave the others', () => {
    const { strengths } = taughtFor(taught, null);
    // The belief of before (sd 0.35 in ln) holds back; the more photos, the less.
    const found = strengths.get(brown.id) ?? Number.NaN;
    expect(found).toBeGreaterThan(1.25);
    const thrice = { ...taught, photos: [...photos, ...photos, ...photos] };
    const more = taughtFor(thrice, null).strengths.get(brown.id) ?? Number.NaN;
    expect(more).toBeGreaterThan(found);
    expect(more).toBeLessThan(1.75);
    expectWithin(strengths.get(ink.id) ?? Number.NaN, 1, 0.12);
    expectWithin(strengths.get(pearl.id) ?? Number.NaN, 1, 0.2);
  });

  test('so that a mix that was never poured is guessed nearer', () => {
    const fresh = aMix([[drops(brown, 7), drops(ink, 3), drops(pearl, 2)]]);
    const real = trueLab(bare, fresh.sides[0]?.doses ?? [], truth);
    const before = deltaE2000(labOf(guess(shopOf([fresh]), fresh)), real);
    const after = deltaE2000(labOf(guess({ ...taught, mixes: [...mixes, fresh] }, fresh)), real);
    expect(before).toBeGreaterThan(4);
    expect(after).toBeLessThan(before / 3);
  });

  test('errors by the forecast of their day, so that a miss stays a miss', () => {
    const [mix] = mixes;
    if (!mix) throw new Error('There is a mix.');
    const found = guess(taught, mix);
    if (found.kind !== 'guess') throw new Error(found.why);
    expect(found.photos).toBeGreaterThan(0);
    const errors = photos.map(({ readings: [one] }) =>
      one?.forecast ? deltaE2000(one.forecast, one.lab) : 0,
    );
    // More than a search after the fact would leave.
    expect(found.typicalDeltaE).toBeGreaterThan(Math.min(...errors.filter((error) => error > 1)));
  });

  test('nothing from a fault, another plastisol, no mix or no thickness', () => {
    const faulty = photos.map((photo) => ({
      ...photo,
      readings: photo.readings.map((one) => ({ ...one, fault: 'patchy' as const })),
    }));
    const nowhere = photos.map((photo) => ({ ...photo, mixId: null }));
    const flat = photos.map((photo) => ({ ...photo, thicknessMm: null }));
    for (const spoilt of [faulty, nowhere, flat]) {
      const found = taughtFor({ ...taught, photos: spoilt }, null);
      expect(found).toEqual({ strengths: new Map(), history: [] });
    }
    expect(taughtFor(taught, brown.id).history).toEqual([]);
  });

  test('a side of a laminate by its own spot', () => {
    const pair = aMix([[drops(brown, 6)], [drops(pearl, 6)]]);
    const lab = trueLab(bare, [drops(brown, 6)], truth);
    const photo = aReadPhoto(pair, lab, null, { part: 'a' });
    const { strengths } = taughtFor(shopOf([pair], { photos: [photo] }), null);
    expect([...strengths.keys()]).toEqual([brown.id]);
    expect(strengths.get(brown.id)).toBeGreaterThan(1.1);
  });
});

describe('the meeting line', () => {
  const pair = aMix([[drops(brown, 6)], [drops(pearl, 6)]]);

  test('runs from the guess of A to that of B in five steps', () => {
    const shop = shopOf([pair]);
    const sides = pair.sides.map((side) => ({ side, taught: taughtFor(shop, side.plastisolId) }));
    const line = meetingLine(shop, pair, sides, body);
    expect(line).toHaveLength(lineShares.length);
    expect(line[0]).toEqual(labOf(guess(shop, pair, 0)));
    expect(line[4]).toEqual(labOf(guess(shop, pair, 1)));
    const [a, , middle, , b] = line;
    if (!a || !middle || !b) throw new Error('The line has five steps.');
    expect(deltaE2000(a, middle)).toBeLessThan(deltaE2000(a, b));
  });

  test('is not shown while one side cannot be', () => {
    const bare = aColourant('Lime', null);
    const odd = aMix([[drops(brown, 6)], [drops(bare, 6)]]);
    const shop = shopOf([odd], { materials: [...materials, bare] });
    const sides = odd.sides.map((side) => ({ side, taught: taughtFor(shop, null) }));
    expect(meetingLine(shop, odd, sides, body)).toEqual([]);
  });
});
