import { expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { aColourway, aMould } from '../../hands/evening.ts';
import { aTable, type TestTable } from '../../hands/table.tsx';

const key = (name: string | RegExp) => page.getByRole('button', { name });
const offered = () =>
  page
    .getByRole('group', { name: 'Colour' })
    .getByRole('button', { name: /, mix/ })
    .elements()
    .map((one) => one.getAttribute('aria-label'));

async function toMix(table: TestTable, pot: RegExp): Promise<void> {
  table.pass(1_000);
  await key(pot).click();
  await page.getByRole('button', { name: 'New mix', exact: true }).click();
}

test('where the next pot is mixed the planned colours come first, in their order, and any other may be taken', async () => {
  const table = await aTable(async (book) => {
    const mould = await aMould(book, 'Grub 50', { rows: 2, cols: 4 });
    const pearl = await aColourway(book, 'Pearl', '#ece7d8');
    const ink = await aColourway(book, 'Ink', '#1c2733');
    await aColourway(book, 'Moss', '#4c5a2c');
    return { mouldIds: [mould.id], planned: [pearl.id, ink.id] };
  });
  await toMix(table, /^Pot:/);
  await expect.poll(offered).toEqual(['1. Pearl, mix, next', '2. Ink, mix', 'Moss, mix']);
  await key('Moss, mix').click();
  await toMix(table, /^Pot: Moss/);
  await expect.poll(offered).toEqual(['1. Pearl, mix, next', '2. Ink, mix', 'Moss, mix']);
  await key('1. Pearl, mix, next').click();
  await toMix(table, /^Pot: Pearl/);
  await expect.poll(offered).toEqual(['1. Ink, mix, next', 'Pearl, mix', 'Moss, mix']);
});
