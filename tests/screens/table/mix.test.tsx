import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import type { SaidOf } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mix } from '#model/mix.ts';
import { mostPhotoBytes, mostPhotoPx } from '#model/photo.ts';
import { devicePictures } from '#platform/pictures.ts';
import { ColourScreen } from '#screens/colours/ColourScreen.tsx';
import { addHead } from '#store/heads.ts';
import { keepMix, versionsOf } from '#store/mixes.ts';
import { namelessMixes } from '#store/nameless.ts';
import { addPhoto } from '#store/photos.ts';
import { drawn } from '../../hands/drawn.ts';
import { aColourway, seven } from '../../hands/evening.ts';
import { faults } from '../../hands/faults.ts';
import { Finger } from '../../hands/finger.ts';
import { isOfTheBar, keysOn, placeFaults } from '../../hands/glass.ts';
import { aDose, aMaterial, aSide, cupMl } from '../../hands/mixes.ts';
import { aPicture, plain } from '../../hands/picture-files.ts';
import { show } from '../../hands/show.tsx';
import { aTable, type TestTable } from '../../hands/table.tsx';

let table: TestTable;
let peat: Colourway;
let black: Material;
let flake: Material;
let mix: Mix;
const finger = new Finger(9);
let atMs = 700_000;

const key = (name: RegExp | string) => page.getByRole('button', { name }).first();

async function press(name: RegExp | string): Promise<void> {
  await expect.element(key(name)).toBeVisible();
  atMs += 1_000;
  finger.down(key(name).element(), atMs);
  finger.lift(atMs + 60);
}

interface Poured {
  mix?: { doses: { name: string; amount: number }[] } | null | undefined;
}

/** What the newest line of a kind says. */
async function said<K extends 'pot-mixed' | 'pot-topped-up'>(kind: K): Promise<SaidOf<K>> {
  const entries = await table.entries();
  const found = entries.map((entry) => entry.said).findLast((one) => one.kind === kind);
  if (!found) throw new Error(`Nothing of ${kind} was written.`);
  return found as SaidOf<K>;
}
const isLogged = (kind: string) =>
  expect.poll(async () => (await table.entries()).map((entry) => entry.said.kind)).toContain(kind);
const dosesOf = (pot: Poured | undefined) =>
  pot?.mix?.doses.map(({ name, amount }) => [name, amount]);

beforeEach(async () => {
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
  await page.viewport(360, 740);
  table = await aTable([['Grub 50', 2, 4]]);
  const { book } = table.shop;
  peat = await aColourway(book, 'Peat brown', '#5b4029');
  black = await aMaterial(book, 'Black');
  flake = await aMaterial(book, 'Green flake', { kind: 'flake', unit: 'g', swatch: '#2f7d3b' });
  const doses = [
    aDose(black.id, 2.9, 'drop', { name: 'Black' }),
    aDose(flake.id, 1.45, 'tsp', { name: 'Green flake' }),
  ];
  mix = await keepMix(book, peat.id, { baseMl: cupMl, sides: [aSide(doses)], nextTime: '' }, seven);
  table.pass(1_000);
});

afterEach(() => vi.restoreAllMocks());

async function openMix(): Promise<void> {
  await press(/^Pot:/);
  await press(/^New mix/);
}

/** A photo of a bait of a colour. */
async function aPhoto({ id: colourwayId }: Colourway) {
  const picture = new Blob([await aPicture([40, 30], plain('#3a4a1f'))]);
  const limits = { mostPx: mostPhotoPx, mostBytes: mostPhotoBytes };
  const small = await devicePictures.remake(picture, limits);
  return await addPhoto(table.shop.book, { shows: 'bait', colourwayId }, small, seven);
}

describe('a new mix of a colour', () => {
  test('shows its doses for the chosen volume before it is mixed, and freezes what was poured', async () => {
    await openMix();
    // Two cups stand as last time; two quarters less twice is one cup.
    for (let cup = 0; cup < 4; cup++) await press('¼ cup less');
    await press(/^Peat brown, mix/);
    // 2.9 drops and 1.45 teaspoons a cup are 3 and 1 1/2 in 245 mL: row D05 of methods-colour-plan.
    await expect.element(page.getByText('take 245 mL')).toBeVisible();
    await expect.element(page.getByRole('img', { name: '3 drops of Black' })).toBeVisible();
    await expect.element(page.getByRole('img', { name: '1½ tsp of Green flake' })).toBeVisible();
    await expect.element(page.getByText('1124-2')).toBeVisible();
    expect(await table.entries()).toEqual([]);
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    const { colourwayId, pots } = await said('pot-mixed');
    expect(colourwayId).toBe(peat.id);
    expect(pots[0]).toMatchObject({
      batch: '1124-2',
      mix: { mixId: mix.id, version: 1, role: 'only' },
    });
    expect(dosesOf(pots[0])).toEqual([
      ['Black', 3],
      ['Green flake', 1.5],
    ]);
    expect(pots[0]?.volumeMl).toBeCloseTo(cupMl * 1.034483, 3);
  });

  test('follows the volume on the spot', async () => {
    await openMix();
    await press(/^Peat brown, mix/);
    await expect.element(page.getByRole('img', { name: '6 drops of Black' })).toBeVisible();
    for (let cup = 0; cup < 4; cup++) await press('¼ cup more');
    await expect.element(page.getByRole('img', { name: '9 drops of Black' })).toBeVisible();
  });

  test('says when the pot is too small for the doses, and which would do', async () => {
    const { book } = table.shop;
    const faint = aSide([aDose(black.id, 0.5, 'drop', { name: 'Black' })]);
    const haze = await aColourway(book, 'Haze', '#d8d2c2');
    await keepMix(book, haze.id, { baseMl: cupMl, sides: [faint], nextTime: '' }, seven);
    await openMix();
    for (let cup = 0; cup < 4; cup++) await press('¼ cup less');
    await press(/^Haze, mix/);
    await expect.element(page.getByText('Too small: 1¾ cups')).toBeVisible();
  });

  test('can be changed by a press: that is the next version, and this one stays as it was', async () => {
    await openMix();
    await press(/^Peat brown, mix/);
    await press(/^Change/);
    await press(/^Black 6 drops/);
    await press(/^Black 7 drops/);
    await press('Take away');
    await press(/^Green flake 3 tsp/);
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    const { pots } = await said('pot-mixed');
    expect(dosesOf(pots[0])).toEqual([
      ['Black', 8],
      ['Green flake', 2.875],
    ]);
    const { book } = table.shop;
    await expect.poll(async () => (await versionsOf(book, peat.id)).length).toBe(2);
    const [changed, kept] = await versionsOf(book, peat.id);
    expect(kept).toEqual(mix);
    expect(pots[0]?.mix).toMatchObject({ mixId: changed?.id, version: 2 });
    expect(changed).toMatchObject({ version: 2, baseMl: pots[0]?.volumeMl });
    expect(dosesOf({ mix: { doses: changed?.sides[0]?.doses ?? [] } })).toEqual(dosesOf(pots[0]));
    // The colour page lists it, and pours it again in another volume.
    show(table.shop, <ColourScreen colourwayId={peat.id} />);
    await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent('Peat brown 2');
    await expect.element(page.getByText(/^Black 8 drops instead of/)).toBeVisible();
    for (let cup = 0; cup < 8; cup++)
      await page.getByRole('button', { name: '¼ cup more' }).click();
    await expect.element(page.getByText('16 drops')).toBeVisible();
  });

  test('a dose that was left alone stays as exact as it was written, and nothing changed is no version', async () => {
    await openMix();
    await press(/^Peat brown, mix/);
    await press(/^Change/);
    await press(/^Black 6 drops/);
    await press('Take away');
    await press(/^Black 7 drops/);
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    expect((await said('pot-mixed')).pots[0]?.mix).toMatchObject({ mixId: mix.id, version: 1 });
    await openMix();
    await press(/^Peat brown, mix/);
    await press(/^Change/);
    await press(/^Black 6 drops/);
    await press(/^Mixed/);
    await expect.poll(async () => (await said('pot-mixed')).pots[0]?.mix?.version).toBe(2);
    const { book } = table.shop;
    await expect.poll(async () => (await versionsOf(book, peat.id)).length).toBe(2);
    const [changed] = await versionsOf(book, peat.id);
    const [drops, spoons] = changed?.sides[0]?.doses ?? [];
    expect(drops?.amount).toBe(7);
    // 1.45 teaspoons a cup, as it was written: only the drops were touched.
    expect((spoons?.amount ?? 0) / (changed?.baseMl ?? 1)).toBeCloseTo(1.45 / cupMl, 12);
  });

  test('side B of a laminate can be changed, and what was poured of both is the next version', async () => {
    const { book } = table.shop;
    const pair = await aColourway(book, 'Ink/rust', '#1c2733', '#8a3b1d');
    const sides = [
      aSide([aDose(black.id, 9, 'drop', { name: 'Black' })], { role: 'a', name: 'Ink' }),
      aSide([aDose(flake.id, 0.5, 'tsp', { name: 'Green flake' })], { role: 'b', name: 'Rust' }),
    ];
    await keepMix(book, pair.id, { baseMl: cupMl, sides, nextTime: '' }, seven);
    await openMix();
    await press(/^Ink\/rust, mix/);
    await press(/^Change/);
    await expect.element(page.getByRole('region', { name: 'Mix A Ink' })).toBeVisible();
    await press(/^Black 18 drops/);
    await press('Side B');
    await expect.element(page.getByRole('region', { name: 'Mix B Rust' })).toBeVisible();
    await press(/^Green flake 1 tsp/);
    await press('Side A');
    await press(/^Black 19 drops/);
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    const { pots } = await said('pot-mixed');
    expect(pots.map(dosesOf)).toEqual([[['Black', 20]], [['Green flake', 1.125]]]);
    await expect.poll(async () => (await versionsOf(book, pair.id)).length).toBe(2);
    const [changed] = await versionsOf(book, pair.id);
    expect(pots.map(({ mix: of }) => [of?.mixId, of?.version, of?.role])).toEqual([
      [changed?.id, 2, 'a'],
      [changed?.id, 2, 'b'],
    ]);
    expect(changed?.sides.map(({ doses }) => doses[0]?.amount)).toEqual([20, 1.125]);
  });

  test('a tail can be changed, and the body goes into the next version as it was', async () => {
    const { book } = table.shop;
    const tailed = await aColourway(book, 'Tailed', '#5b4029');
    const sides = [
      aSide([aDose(black.id, 9, 'drop', { name: 'Black' })]),
      aSide([aDose(black.id, 4, 'drop', { name: 'Black' })], { role: 'tail', name: 'Tail' }),
    ];
    await keepMix(book, tailed.id, { baseMl: cupMl, sides, nextTime: '' }, seven);
    await openMix();
    await press(/^Tailed, mix/);
    await press('Tail pot');
    await press('Change');
    await press(/^Black 8 drops/);
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    await expect.poll(async () => (await versionsOf(book, tailed.id)).length).toBe(2);
    const [changed] = await versionsOf(book, tailed.id);
    expect((await said('pot-mixed')).pots.map(({ mix: of }) => of)).toMatchObject([
      { mixId: changed?.id, version: 2, role: 'tail', doses: [{ amount: 9 }] },
    ]);
    expect(changed?.baseMl).toBeCloseTo(2 * cupMl, 6);
    const amounts = changed?.sides.map(({ role, doses }) => [
      role,
      Number(doses[0]?.amount.toFixed(9)),
    ]);
    expect(amounts).toEqual([
      ['only', 18],
      ['tail', 9],
    ]);
  });

  test('of a laminate shows A and B, each for its own cup', async () => {
    const { book } = table.shop;
    const pair = await aColourway(book, 'Ink/rust', '#1c2733', '#8a3b1d');
    const sides = [
      aSide([aDose(black.id, 9, 'drop', { name: 'Black' })], { role: 'a', name: 'Ink' }),
      aSide([aDose(flake.id, 0.5, 'tsp', { name: 'Green flake' })], { role: 'b', name: 'Rust' }),
    ];
    await keepMix(book, pair.id, { baseMl: cupMl, sides, nextTime: '' }, seven);
    await openMix();
    await press(/^Ink\/rust, mix/);
    await expect.element(page.getByRole('img', { name: '18 drops of Black' })).toBeVisible();
    await expect.element(page.getByText('1124-2 1124-3')).toBeVisible();
    await press(/^More/);
    await expect.element(page.getByRole('img', { name: '1 tsp of Green flake' })).toBeVisible();
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    const { pots } = await said('pot-mixed');
    expect(pots.map(({ mix: of, batch }) => [of?.role, batch])).toEqual([
      ['a', '1124-2'],
      ['b', '1124-3'],
    ]);
  });
});

test('a colour that was photographed has its real bait on its key, a drawn one its look', async () => {
  const { book } = table.shop;
  const moss = await aColourway(book, 'Moss', '#5a6b2f');
  await aPhoto(peat);
  const drawn = await aPhoto(moss);
  await book.db.put('photos', { ...drawn, isDrawn: true });
  await openMix();
  const pictures = (name: RegExp) => key(name).element().querySelectorAll('img').length;
  const looks = (name: RegExp) => key(name).element().querySelectorAll('i').length;
  await expect.element(key(/^Peat brown, mix/)).toBeVisible();
  await expect
    .poll(() => [pictures(/^Peat brown, mix/), looks(/^Peat brown, mix/)])
    .toEqual([1, 0]);
  expect([pictures(/^Moss, mix/), looks(/^Moss, mix/)]).toEqual([0, 1]);
});

describe('a mix made up on the spot', () => {
  test('is counted by presses, poured, and kept without a name', async () => {
    await openMix();
    await press(/^New colour/);
    for (const drops of ['last', '1 drop', '2 drops']) await press(new RegExp(`^Black ${drops}`));
    await press(/^Green flake last/);
    await press('Take away');
    await press('Black 3 drops');
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    const { pots, colourwayId } = await said('pot-mixed');
    expect(colourwayId).toBeNull();
    expect(dosesOf(pots[0])).toEqual([
      ['Black', 2],
      ['Green flake', 0.125],
    ]);
    await expect.poll(async () => (await namelessMixes(table.shop.book)).length).toBe(1);
    const [kept] = await namelessMixes(table.shop.book);
    expect(kept).toMatchObject({ id: pots[0]?.mix?.mixId, baseMl: pots[0]?.volumeMl, version: 1 });
    expect(dosesOf({ mix: { doses: kept?.sides[0]?.doses ?? [] } })).toEqual(dosesOf(pots[0]));
  });

  test('of nothing is a pot without a mix', async () => {
    await openMix();
    await press(/^New colour/);
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    expect((await said('pot-mixed')).pots[0]?.mix).toBeUndefined();
    expect(await namelessMixes(table.shop.book)).toEqual([]);
  });
});

describe('topping up', () => {
  test('fresh plastisol takes the doses of its pot, and remelt takes none', async () => {
    await openMix();
    await press(/^Peat brown, mix/);
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    const [pot] = (await said('pot-mixed')).pots;
    await press(/^Pot: Peat/);
    await expect.element(page.getByText('1124-2')).toBeVisible();
    await press(/^Topped up/);
    for (let cup = 0; cup < 3; cup++) await press('¼ cup more');
    await expect.element(page.getByRole('img', { name: '3 drops of Black' })).toBeVisible();
    await press(/^One heat more/);
    await expect.element(page.getByRole('img', { name: /Black/ })).not.toBeInTheDocument();
    await press(/^One heat less/);
    await press(/^Top up 1 cup/);
    await isLogged('pot-topped-up');
    const { mix: added, volumeMl } = await said('pot-topped-up');
    expect(added).toMatchObject({ mixId: mix.id, version: 1 });
    expect(added?.doses.map(({ amount }) => amount)).toEqual([3, 1.5]);
    // As strong as the pot it goes into, as far as whole drops can be.
    const strength = (pot?.mix?.doses[0]?.amount ?? 0) / (pot?.volumeMl ?? 1);
    expect(3 / volumeMl / strength).toBeCloseTo(1, 1);
  });
});

describe('every key and word', () => {
  const glasses = [
    [360, 740],
    [412, 915],
    [740, 360],
    [915, 412],
    [768, 1024],
    [1024, 768],
  ] as const;

  /** Faults of place and size on every glass. */
  async function look(state: string): Promise<string[]> {
    const found: string[] = [];
    for (const [width, height] of glasses) {
      await page.viewport(width, height);
      await drawn();
      const where = `${width}x${height} ${state}`;
      for (const one of keysOn(document.body)) {
        const need = isOfTheBar(one) ? 112 : 72;
        if (one.wide < need - 0.5 || one.high < need - 0.5) {
          found.push(`${where}: ${one.name} is ${one.wide} x ${one.high}`);
        }
      }
      found.push(...placeFaults(document.body).map((fault) => `${where}: ${fault}`));
    }
    await page.viewport(360, 740);
    for (const palette of ['chalk', 'lamp']) {
      document.documentElement.dataset.theme = palette;
      found.push(...(await faults(document.body)).map((fault) => `${state} ${palette}: ${fault}`));
    }
    document.documentElement.dataset.theme = 'chalk';
    return found;
  }

  test('keeps its size and place on every glass, with many colours, doses and materials', async () => {
    const { book } = table.shop;
    for (let number = 1; number <= 9; number++) {
      const colour = await aColourway(book, `Colour ${number}`, '#5e6a72');
      if (number % 2 === 0) await aPhoto(colour);
      await aMaterial(book, `Colourant ${number}`);
    }
    const names = ['Chartreuse pearl', 'Black', 'Gold', 'Green flake', 'Salt'];
    const doses = names.map((name, index) =>
      aDose(black.id, 11 + index * 4, index < 3 ? 'drop' : 'tsp', { name }),
    );
    await addHead(
      book,
      'mixes',
      {
        colourwayId: peat.id,
        version: 2,
        baseMl: cupMl * 2,
        sides: [aSide(doses), aSide(doses.slice(0, 1), { role: 'tail', name: 'Tail' })],
        nextTime: '',
      },
      seven,
    );
    await openMix();
    await expect.element(key(/^More/)).toBeVisible();
    const found = await look('choose');
    for (let tries = 0; tries < 4 && !key(/^Peat brown, mix/).query(); tries++)
      await press(/^More/);
    await press(/^Peat brown, mix/);
    found.push(...(await look('doses')));
    await press(/^Mixed/);
    await isLogged('pot-mixed');
    await press(/^Pot: Peat/);
    found.push(...(await look('pot')));
    await press(/^Topped up/);
    found.push(...(await look('top-up')));
    await press(/^Pot:/);
    await press(/^Pot:/);
    await press(/^New mix/);
    await press(/^New colour/);
    await expect.element(key(/^Colourant \d (none|last)/)).toBeVisible();
    found.push(...(await look('make')));
    expect(found).toEqual([]);
  }, 60_000);
});
