import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { stockOf } from '#calc/stock-level.ts';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { keepMix } from '#store/mixes.ts';
import { addToSession, entriesOf } from '#store/sessions.ts';
import { moveStock, shelfOf } from '#store/stock.ts';
import { aColourway, aMould, pourEvening, seven } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aDraft, aMaterial, cupMl } from '../../hands/mixes.ts';
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
  const entries = await entriesOf(shop.book, sessionId);
  const [pot] = entries.flatMap(({ said }) => (said.kind === 'pot-mixed' ? said.pots : []));
  if (!pot?.mix) throw new Error('There is no pot of a mix.');
  // Half a cup more of what was thought to be in it.
  const more = { ...pot.mix, doses: pot.mix.doses.map((dose) => ({ ...dose, amount: 3 })) };
  const fresh = { volumeMl: cupMl / 2, meanHeats: 0, maxHeats: 0, mix: more };
  const topUp = { kind: 'pot-topped-up', potId: pot.potId, ...fresh } as const;
  await addToSession(shop.book, sessionId, topUp, seven + 3_600_000);
  const root = show(shop, <SessionScreen sessionId={sessionId} />);
  await expect.element(page.getByRole('heading', { name: 'Entries' })).toBeVisible();
  // Six drops a cup in the usual pot of two, and three for the top-up.
  expect(await dropsGone(brown)).toBe(15);
  await key(/^Put right: New mix, Peat/).click();
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
  // Twelve for the three cups, two for the half cup on top.
  await expect.poll(() => dropsGone(blue)).toBe(14);
  expect(await dropsGone(brown)).toBe(0);
});
