import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { stockOf } from '#calc/stock-level.ts';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { keepMix } from '#store/mixes.ts';
import { moveStock, shelfOf } from '#store/stock.ts';
import { aColourway, aMould, pourEvening, seven } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aDraft, aMaterial } from '../../hands/mixes.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { key } from './session-page.tsx';

const day = 86_400_000;
let shop: TestShop;
let peat: Colourway;
let [brown, blue]: Material[] = [];

beforeEach(async () => {
  await page.viewport(360, 740);
  shop = await aShop();
  const { book } = shop;
  peat = await aColourway(book, 'Peat', '#5b4029');
  const slate = await aColourway(book, 'Slate', '#5e6a72');
  await aColourway(book, 'Bare', '#cccccc');
  brown = await aMaterial(book, 'Brown');
  blue = await aMaterial(book, 'Blue');
  for (const material of [brown, blue]) {
    const says = { kind: 'counted', level: 10 } as const;
    const at = seven - day;
    await moveStock(book, material.id, says, { at, writtenAt: at, note: '' });
  }
  await keepMix(book, peat.id, aDraft([[brown, 6]]), seven - day);
  await keepMix(book, slate.id, aDraft([[blue, 4]]), seven - day);
});

/** How many drops of a material are gone from the shelf. */
async function dropsGone(material: Material | undefined): Promise<number> {
  if (!material) throw new Error('There is no such material.');
  const { movements, uses } = await shelfOf(shop.book);
  const { level } = stockOf(material, movements, uses);
  // A usual drop is 0.05 mL: common practice, no source.
  return Math.round((10 - level) / 0.05);
}

test('a wrong colour put right takes its doses by the right mix, on the page and on the shelf', async () => {
  const mould = await aMould(shop.book, 'Grub 50');
  const fills = [{ mould, gave: 'gggg' }];
  const sessionId = await pourEvening(shop.book, { fills, colourway: peat });
  const root = show(shop, <SessionScreen sessionId={sessionId} />);
  await expect.element(page.getByRole('heading', { name: 'Entries' })).toBeVisible();
  // Six drops a cup in the usual pot of two.
  expect(await dropsGone(brown)).toBe(12);
  await key(/^Put right: .*Peat/).click();
  const choose = page.getByRole('combobox', { name: 'Colour' });
  await choose.selectOptions('Bare');
  await expect
    .element(page.getByText('No doses count for it: no mix of Bare is written down.'))
    .toBeVisible();
  await choose.selectOptions('Slate');
  await page.getByLabelText('Slate, cups').fill('3');
  await expect
    .element(page.getByText('Its doses by Slate 1 count now, also on the shelf. Blue 12 drops.'))
    .toBeVisible();
  expect(await faults(root)).toEqual([]);
  expect(isNoWider()).toBe(true);
  await key('Save').click();
  await expect.poll(() => dropsGone(blue)).toBe(12);
  expect(await dropsGone(brown)).toBe(0);
});
