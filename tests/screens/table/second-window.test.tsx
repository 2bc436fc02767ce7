import { expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { deviceTableLock } from '#platform/table-lock.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { keyDown, pageDown } from '../../hands/pedal.ts';
import { aTable, mainSays } from '../../hands/table.tsx';

const elsewhere = page.getByRole('heading', { name: 'The table is open in another window.' });
const useHere = page.getByRole('button', { name: 'Use it here' });

test('when another window takes the table, this one says so and has one key that takes it back', async () => {
  await page.viewport(320, 568);
  const table = await aTable([['Grub 50', 2, 4]]);
  await mainSays(/^Filled/);
  const other = deviceTableLock(table.shop.book.db.name).ask(() => {});
  other.take();
  await expect.element(elsewhere).toBeVisible();
  // The bell of this window is off, and its pedal presses nothing.
  await expect.poll(() => table.armed.at(-1)).toEqual([]);
  keyDown(pageDown, 990_000);
  await useHere.click();
  await mainSays(/^Filled/);
  expect(await table.entries()).toEqual([]);
  other.letGo();
});

test('marks that were half made in this window are there when the table comes back', async () => {
  const table = await aTable([['Grub 50', 2, 4]]);
  table.pass(1_000);
  await mainSays(/^Filled/);
  table.pass(400);
  keyDown(pageDown, 1_000_000);
  await page.getByRole('button', { name: /^Open now/ }).click();
  await page.getByRole('button', { name: /^Mark bad/ }).click();
  await page.getByRole('button', { name: /^Cavity 3/ }).click();
  await expect.element(page.getByRole('button', { name: /^Cavity 3, Short/ })).toBeVisible();
  const other = deviceTableLock(table.shop.book.db.name).ask(() => {});
  other.take();
  await expect.element(elsewhere).toBeVisible();
  other.letGo();
  // The other window has closed: nothing has to be pressed.
  await expect.element(page.getByRole('button', { name: /^Cavity 3, Short/ })).toBeVisible();
});

test('the page in its place has no fault that axe knows, in either palette, and fits 320 px', async () => {
  await page.viewport(320, 568);
  const table = await aTable([['Grub 50', 2, 4]]);
  const other = deviceTableLock(table.shop.book.db.name).ask(() => {});
  other.take();
  await expect.element(elsewhere).toBeVisible();
  for (const palette of ['chalk', 'lamp']) {
    document.documentElement.dataset.theme = palette;
    expect(await faults(document.body), palette).toEqual([]);
  }
  document.documentElement.dataset.theme = 'chalk';
  expect(isNoWider()).toBe(true);
  other.letGo();
});
