import type { ComponentChildren } from 'preact';
import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Material } from '#model/material.ts';
import { BaitCostScreen } from '#screens/shelf/BaitCostScreen.tsx';
import { MaterialFactsScreen } from '#screens/shelf/MaterialFactsScreen.tsx';
import { MaterialScreen } from '#screens/shelf/MaterialScreen.tsx';
import { ShelfScreen } from '#screens/shelf/ShelfScreen.tsx';
import { addHead } from '#store/heads.ts';
import { aColourway, aMould, seven } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { moved, onShelf, poured } from './shelf-page.ts';

let shop: TestShop;
let black: Material;

beforeEach(async () => {
  shop = await aShop();
  const name = 'Aquickbrownfoxjumpsoverthelazydogwithoutasinglespaceanywhere';
  black = await onShelf(shop, { name, reorderAt: 90, swatch: '#15161a' }, 80);
  await moved(shop, black, { kind: 'counted', level: 70 }, seven);
  await moved(shop, black, { kind: 'lost', qty: 12.5 }, seven + 1);
  const clear = await onShelf(shop, { name: 'Soft plastisol', kind: 'plastisol' }, 18_927);
  await poured(shop, await aMould(shop.book, 'Grub 50'), clear, [400, 500, 600]);
  await onShelf(shop, { name: 'Anise', kind: 'scent', isAside: true });
  const peat = await aColourway(shop.book, name, '#5b4128');
  const doses = [
    { materialId: black.id, name: 'x', amount: 40, unit: 'drop' as const, isPinned: false },
  ];
  const side = { role: 'only' as const, name: 'Peat', swatch: '#5b4128', plastisolId: clear.id };
  await addHead(
    shop.book,
    'mixes',
    { colourwayId: peat.id, version: 12, baseMl: 473, sides: [{ ...side, doses }], nextTime: '' },
    seven,
  );
});

const screens: readonly [string, () => ComponentChildren, (string | RegExp)[]][] = [
  ['the shelf', () => <ShelfScreen />, []],
  ['a material', () => <MaterialScreen materialId={black.id} />, [/^Take back: Lost/]],
  ['a purchase', () => <MaterialScreen materialId={black.id} />, ['Bought', /^Write it down/]],
  ['a weighing', () => <MaterialScreen materialId={black.id} />, ['Weighed or counted', /^Start/]],
  ['a measure', () => <MaterialScreen materialId={black.id} />, ['Measure its drops', 'Keep this']],
  ['a new material', () => <MaterialFactsScreen materialId={null} />, ['Flake', /^Add this/]],
  ['the facts of one', () => <MaterialFactsScreen materialId={black.id} />, []],
  ['the cost of a bait', () => <BaitCostScreen />, ['One bait more']],
];

test.each(screens)(
  '%s has no fault that axe knows, in either palette, and fits 320 px',
  async (...by) => {
    const [, screen, presses] = by;
    await page.viewport(320, 568);
    const root = show(shop, screen());
    for (const name of presses) await page.getByRole('button', { name }).first().click();
    await expect.element(page.getByRole('heading', { level: 1 })).toBeVisible();
    for (const palette of ['chalk', 'lamp']) {
      document.documentElement.dataset.theme = palette;
      expect(await faults(root), palette).toEqual([]);
    }
    document.documentElement.dataset.theme = 'chalk';
    expect(isNoWider()).toBe(true);
  },
);

test.each(screens)('%s has keys of 48 px at least, and no two lie on each other', async (...by) => {
  const [, screen, presses] = by;
  await page.viewport(360, 740);
  const root = show(shop, screen());
  for (const name of presses) await page.getByRole('button', { name }).first().click();
  await expect.element(page.getByRole('heading', { level: 1 })).toBeVisible();
  const keys = [...root.querySelectorAll<HTMLElement>('button, a, input, select, summary')];
  const boxes = keys.map(
    (key) => [key.textContent || key.id, key.getBoundingClientRect()] as const,
  );
  expect(boxes.length).toBeGreaterThan(3);
  for (const [index, [name, a]] of boxes.entries()) {
    expect(Math.min(a.width, a.height), name).toBeGreaterThanOrEqual(48);
    for (const [other, b] of boxes.slice(index + 1)) {
      const apartX = Math.max(a.left, b.left) - Math.min(a.right, b.right);
      const apartY = Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom);
      expect(Math.max(apartX, apartY), `${name} and ${other}`).toBeGreaterThanOrEqual(3.5);
    }
  }
});
