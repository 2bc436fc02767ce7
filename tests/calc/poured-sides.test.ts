import { describe, expect, test } from 'vitest';
import { standingOf } from '#calc/log.ts';
import { heldIn, loneSide, pouredSides } from '#calc/poured-sides.ts';
import { type ColourShop, plainForecast } from '#calc/shop-colours.ts';
import { taughtFor } from '#calc/shop-forecast.ts';
import type { Said } from '#model/entry.ts';
import type { Dose, MixId } from '#model/mix.ts';
import type { Photo } from '#model/photo.ts';
import { aColourant, aMix, aReadPhoto, drops, opticsOf, trueLab } from '../hands/colours.ts';
import { dyedPot, filled, id, Pen, potMixed } from '../hands/log.ts';
import { expectWithin } from '../hands/within.ts';

const brown = aColourant('Brown', opticsOf(0.012, 0.004, 0, 1, 2, 3, 4, 5));
const cupMl = 236.5882365;
/** Six drops a cup; the mix that `dyedPot` is of. */
const mix = aMix([[drops(brown, 6)]], { id: id<MixId>('mix', 1) });

/** A pot of two cups of that mix, with so many drops in it. */
function pot(number: number, amount: number, heats = 0) {
  const said = dyedPot(number, amount, heats);
  return {
    ...said,
    pots: said.pots.map((one) => ({
      ...one,
      mix: one.mix && { ...one.mix, plastisolId: null, doses: [drops(brown, amount)] },
    })),
  };
}

/** The log of an evening that begins with `said`. */
function evening(...said: Said[]) {
  const pen = new Pen();
  for (const one of said) pen.write(one);
  return standingOf(pen.entries);
}

const shot = { shotId: id<NonNullable<Photo['shotId']>>('shot', 1) };
const doseOf = (sides: ReturnType<typeof pouredSides>): Dose | undefined => sides?.[0]?.doses[0];
const topUp = (volumeMl: number, doses: Dose[] | null, maxHeats = 0): Said => ({
  kind: 'pot-topped-up',
  potId: id('pot', 1),
  volumeMl,
  meanHeats: maxHeats,
  maxHeats,
  mix: doses && { mixId: mix.id, version: 1, role: 'only', plastisolId: null, doses },
});

describe('what really went into the pot of a shot', () => {
  test('is what was frozen, in the volume of the mix', () => {
    const sides = pouredSides(evening(pot(1, 15), filled(1, 1)), shot, mix);
    // 15 drops in two cups are 7.5 in one.
    expectWithin(doseOf(sides)?.amount ?? 0, 7.5, 1e-6);
    expect(sides?.[0]).toMatchObject({ role: 'only', plastisolId: null });
    expect(sides?.[0]).not.toHaveProperty('hasRemelt');
  });

  test('is thinned or darkened by a top-up before it, and not by one after it', () => {
    const before = evening(
      pot(1, 12),
      filled(1, 2),
      topUp(cupMl, [drops(brown, 24)]),
      filled(1, 1),
    );
    // Of 12 drops in two cups 42 mL were drawn; 24 drops in one cup more.
    const left = 2 * cupMl - 42;
    const want = (12 * (left / (2 * cupMl)) + 24) / ((left + cupMl) / cupMl);
    expectWithin(doseOf(pouredSides(before, shot, mix))?.amount ?? 0, want, 1e-6);
    const after = evening(pot(1, 12), filled(1, 1), topUp(cupMl, [drops(brown, 24)]));
    expectWithin(doseOf(pouredSides(after, shot, mix))?.amount ?? 0, 6, 1e-6);
    const untold = evening(pot(1, 12), topUp(cupMl, null), filled(1, 1));
    expectWithin(doseOf(pouredSides(untold, shot, mix))?.amount ?? 0, 6, 1e-6);
  });

  test('has old plastic in it once a pot was mixed from some or topped up with some', () => {
    for (const lines of [
      evening(pot(1, 12, 2), filled(1, 1)),
      evening(pot(1, 12), topUp(60, null, 1), filled(1, 1)),
    ]) {
      expect(pouredSides(lines, shot, mix)?.[0]?.hasRemelt).toBe(true);
    }
  });

  test('is not told by another shot, another mix, or a pot without one', () => {
    expect(pouredSides(evening(pot(1, 15)), shot, mix)).toBeNull();
    expect(pouredSides(evening(potMixed(1), filled(1, 1)), shot, mix)).toBeNull();
    const other = { ...mix, id: id<MixId>('mix', 2) };
    expect(pouredSides(evening(pot(1, 15), filled(1, 1)), shot, other)).toBeNull();
  });

  test('is told by the evening alone when all its pots of the mix held the same', () => {
    const noShot = { shotId: null };
    expectWithin(doseOf(pouredSides(evening(pot(1, 15)), noShot, mix))?.amount ?? 0, 7.5, 1e-6);
    const twice = evening(pot(1, 15), pot(2, 15));
    expectWithin(doseOf(pouredSides(twice, noShot, mix))?.amount ?? 0, 7.5, 1e-6);
    expect(pouredSides(evening(pot(1, 15), pot(2, 12)), noShot, mix)).toBeNull();
    const changed = evening(pot(1, 15), topUp(60, [drops(brown, 9)]));
    expect(pouredSides(changed, noShot, mix)).toBeNull();
  });
});

describe('a photo teaches', () => {
  const bare: ColourShop = { materials: [brown], mixes: [mix], photos: [] };
  const body = { thicknessMm: 10, backing: 0.85 };
  const strengthBy = (poured: ColourShop['poured'], photo: Photo) =>
    taughtFor({ ...bare, photos: [photo], ...(poured ? { poured } : {}) }, null).strengths.get(
      brown.id,
    );

  test('by the doses that were frozen, not by those that are written', () => {
    // Nine drops a cup were poured and nine are seen; written are six.
    const lines = evening(pot(1, 18), filled(1, 1));
    const sides = pouredSides(lines, shot, mix) ?? [];
    const photo = aReadPhoto(mix, trueLab(bare, [drops(brown, 9)], {}), null);
    expectWithin(strengthBy(new Map([[photo.id, sides]]), photo) ?? 0, 1, 0.01);
    // By the written doses the same photo says that the colourant is stronger than it is.
    expect(strengthBy(undefined, photo)).toBeGreaterThan(1.08);
  });

  test('beside the forecast of what was poured', () => {
    const sides = pouredSides(evening(pot(1, 18), filled(1, 1)), shot, mix) ?? [];
    const photo = aReadPhoto(mix, [40, 10, 20], [50, 10, 20]);
    const shop = { ...bare, photos: [photo], poured: new Map([[photo.id, sides]]) };
    const { history, strengths } = taughtFor(shop, null);
    const nine = aMix([[drops(brown, 9)]]);
    const [side] = nine.sides;
    if (!side) throw new Error('A mix has a side.');
    const want = plainForecast(bare, nine, side, body, strengths) ?? [0, 0, 0];
    for (const [at, value] of want.entries()) {
      expectWithin(history[0]?.now?.[at] ?? Number.NaN, value, 1e-6);
    }
  });

  test('nothing once old plastic was in its pot', () => {
    const sides = pouredSides(evening(pot(1, 12, 1), filled(1, 1)), shot, mix) ?? [];
    const photo = aReadPhoto(mix, [40, 10, 20], null);
    expect(strengthBy(new Map([[photo.id, sides]]), photo)).toBeUndefined();
  });
});

describe('a bait of a laminate', () => {
  const laminate = aMix([[drops(brown, 6)], [drops(brown, 2)]], { id: id<MixId>('mix', 1) });
  /** Each side in a pot of its own, as the log tells it once the laminate has its name. */
  const side = (number: number, role: 'a' | 'b') => {
    const said = pot(number, 12);
    return {
      ...said,
      pots: said.pots.map((one) => ({
        ...one,
        slot: number - 1,
        mix: one.mix && { ...one.mix, role },
      })),
    };
  };
  const loneOf = (lines: ReturnType<typeof evening>, photo = shot) =>
    loneSide(heldIn(lines)(photo) ?? [], photo, laminate);
  const fill = (...pots: number[]): Said => ({
    ...(filled(1, 1) as Extract<Said, { kind: 'filled' }>),
    potIds: pots.map((number) => id('pot', number)),
  });
  const layer: Said = {
    kind: 'layer-poured',
    potId: id('pot', 2),
    shots: [{ shotId: shot.shotId, volumeMl: 20 }],
  };

  test('is of one side alone where its shot took of one cup alone', () => {
    expect(loneOf(evening(side(1, 'a'), fill(1), side(2, 'b')))).toBe('a');
    expect(loneOf(evening(side(1, 'a'), side(2, 'b'), fill(2)))).toBe('b');
    expect(loneOf(evening(side(1, 'a'), side(2, 'b'), fill(1, 2)))).toBeNull();
  });

  test('is of both where a layer of the other side lies on the first', () => {
    const lines = evening(side(1, 'a'), side(2, 'b'), fill(1), layer);
    expect(loneOf(lines)).toBeNull();
    // And each side is what its cup held.
    const sides = pouredSides(lines, shot, laminate);
    expect(sides?.map(({ role }) => role)).toEqual(['a', 'b']);
    for (const { doses } of sides ?? []) expectWithin(doses[0]?.amount ?? 0, 6, 1e-6);
  });

  test('is of none in particular where no shot is told, or another mix was in the cup', () => {
    const lines = evening(side(1, 'a'), fill(1));
    expect(loneOf(lines, { shotId: null as never })).toBeNull();
    const other = { ...laminate, id: id<MixId>('mix', 9) };
    expect(loneSide(heldIn(lines)(shot) ?? [], shot, other)).toBeNull();
    expect(loneSide(heldIn(lines)(shot) ?? [], shot, mix)).toBeNull();
  });
});
