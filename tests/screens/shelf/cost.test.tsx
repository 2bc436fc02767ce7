import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mould } from '#model/mould.ts';
import { BaitCostScreen } from '#screens/shelf/BaitCostScreen.tsx';
import { addHead } from '#store/heads.ts';
import { settingsOf } from '#store/settings.ts';
import { aColourway, aMould, morning, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { moved, onShelf } from './shelf-page.ts';

let shop: TestShop;
let clear: Material;
let black: Material;
let mould: Mould;
let peat: Colourway;

beforeEach(async () => {
  shop = await aShop();
  clear = await onShelf(shop, { name: 'Clear', kind: 'plastisol' }, 1_000);
  black = await onShelf(shop, { dropMl: 0.05 }, 100);
  mould = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, { partMl: 10, sprueMl: 20 });
  peat = await aColourway(shop.book, 'Peat brown', '#5b4128');
});

async function aMix(plastisol: Material | null = clear) {
  const dose = { materialId: black.id, name: 'Soot black', amount: 40, isPinned: false };
  const side = {
    role: 'only',
    name: 'Peat',
    swatch: '#5b4128',
    plastisolId: plastisol?.id ?? null,
    doses: [{ ...dose, unit: 'drop' }],
  } as const;
  const facts = { colourwayId: peat.id, version: 3, baseMl: 200, nextTime: '' };
  const sides = [{ ...side, doses: [...side.doses] }];
  return await addHead(shop.book, 'mixes', { ...facts, sides }, seven);
}

const parts = () =>
  [...document.querySelectorAll('[role="img"] + ul li')].map(({ textContent }) => textContent);

test('a bait that was never poured costs as if all were good', async () => {
  await aMix();
  show(shop, <BaitCostScreen />);
  // By hand, in cents: 1 a mL of plastisol, 40 drops x 0.05 mL x 10 / 200 mL = 0.1 a mL of colour;
  // 10 mL in the bait, 5 mL of its sprue at half its worth.
  await expect
    .poll(parts)
    .toEqual(['Plastic0.100', 'Colour0.010', 'Lost0.028', 'Bag0.000', 'Time0.000']);
  await expect.element(page.getByText('0.138', { exact: true })).toBeVisible();
  await expect.element(page.getByText(/^As if every bait were good/)).toBeVisible();
});

test('baits that nobody looked at are taken to be like the rest, and that is said', async () => {
  await aMix();
  const fills = ['gggg', 'ggss', 'nnnn'].map((gave) => ({ mould, gave }));
  await pourEvening(shop.book, { fills, colourway: peat });
  show(shop, <BaitCostScreen />);
  // 6 of 8 were good, so 9 of 12 are taken to be.
  await expect
    .element(
      page.getByText(
        'From 9 good baits in 3 shots of this mould. 4 not checked are taken to be like the rest.',
      ),
    )
    .toBeVisible();
});

test('what a mould really gave is in the price, with bag and time when they are told', async () => {
  await aMix();
  await onShelf(shop, { name: 'Bags', kind: 'bag', unit: 'piece' }, 100);
  const fills = ['gggg', 'ggss'].map((gave) => ({ mould, gave }));
  await pourEvening(shop.book, { fills, colourway: peat, endMin: 60 });
  show(shop, <BaitCostScreen />);
  // 120 mL poured, 60 in 6 good ones, 60 back at half: 5 mL a bait lost.
  await expect
    .poll(parts)
    .toEqual(['Plastic0.100', 'Colour0.010', 'Lost0.055', 'Bag0.000', 'Time0.000']);
  await expect.element(page.getByText('From 6 good baits in 2 shots of this mould.')).toBeVisible();
  for (let n = 0; n < 5; n += 1) {
    await page.getByRole('button', { name: 'One bait more' }).click();
  }
  await page.getByRole('button', { name: '1.00 more' }).click();
  // A bag of 10 cents for five; an hour of 1.00 for six baits.
  await expect
    .poll(parts)
    .toEqual(['Plastic0.100', 'Colour0.010', 'Lost0.055', 'Bag0.020', 'Time0.167']);
  expect(await settingsOf(shop.book)).toMatchObject({ baitsPerBag: 5, hourCents: 100 });
  for (let n = 0; n < 5; n += 1) {
    await page.getByRole('button', { name: 'One bait less' }).click();
  }
  await expect.poll(() => parts()[3]).toBe('Bag0.000');
});

test('prices are those of their day: what was dearer later does not change what was poured', async () => {
  await aMix();
  await pourEvening(shop.book, { fills: [{ mould, gave: 'gggg' }], colourway: peat });
  await moved(shop, clear, { kind: 'bought', qty: 1_000, cents: 3_000, lot: '' }, morning - 1);
  show(shop, <BaitCostScreen />);
  // By hand: the pot took two cups, 473.2 mL. Of the 1,000 for 10.00 526.8 are left, 1,000 for 30.00
  // come to them: 3,526.8 cents for 1,526.8 mL, 2.31 a mL. At the evening it was 1.
  await expect.poll(() => parts()[0]).toBe('Plastic0.231');
  await expect
    .element(page.getByText('By the prices of Tue 24 Nov, when it was poured last: 0.138.'))
    .toBeVisible();
});

test('what has no price is named', async () => {
  await aMix(null);
  show(shop, <BaitCostScreen />);
  await expect.element(page.getByText(/^No price yet for Plastisol:/)).toBeVisible();
});

test('without a mix it says what is wanted', async () => {
  show(shop, <BaitCostScreen />);
  await expect.element(page.getByText(/^It takes a mould and a mix/)).toBeVisible();
});
