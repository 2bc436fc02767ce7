import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { mouldTempFrom, setTimeFrom } from '#screens/table/where-from.ts';
import { drawn } from '../../hands/drawn.ts';
import { aMould, pourEvening, seven } from '../../hands/evening.ts';
import { glasses, placeFaults } from '../../hands/glass.ts';
import { aTable, type TestTable } from '../../hands/table.tsx';

let table: TestTable;

const key = (name: string | RegExp) => page.getByRole('button', { name });

async function fits(): Promise<void> {
  for (const [width, height] of glasses) {
    await page.viewport(width, height);
    await drawn();
    expect(placeFaults(document.body), `${width}x${height}`).toEqual([]);
  }
  await page.viewport(360, 740);
}

beforeEach(async () => {
  await page.viewport(360, 740);
  table = await aTable([['Grub 50', 2, 4]]);
  table.pass(1_000);
});

test('checklist 58: one press on a set time tells where it comes from, the next shows it again', async () => {
  await key('Table').click();
  await key(/^1 Grub/).click();
  await key('3:00 first guess').click();
  await expect.element(key('Our start value: 3:00.')).toBeVisible();
  await key(/worked out$/).click();
  await expect
    .element(key('Worked out; its weight is our guess. Cold line: our start value.'))
    .toBeVisible();
  await fits();
  await key('15 seconds more').click();
  await key('3:15 your choice').click();
  await expect.element(key('Your choice for this mould.')).toBeVisible();
  await new Promise((resolve) => setTimeout(resolve, 430));
  await key('Your choice for this mould.').click();
  await expect.element(key('3:15 your choice')).toBeVisible();
});

test('checklist 58: a set time of their own opens says how many it is the median of', () => {
  const clock = { setSec: 200, opens: 8, wallC: null };
  expect(setTimeFrom({ ...clock, from: 'own-opens' })).toBe('Median of your 8 opens.');
  expect(setTimeFrom({ ...clock, from: 'predicted' })).toBe('Worked out from its thickest part.');
});

test('checklist 58: the pot tells where its volume, its rounds and its heat come from', async () => {
  await key(/^Pot:/).click();
  await key(/about \d+ rounds?/).click();
  await expect
    .element(key(/^Your mix of .* cups?, less what was poured\. Rounds: \d+ mL each/))
    .toBeVisible();
  await fits();
  await key(/not read yet/).click();
  await expect.element(key('From your shop settings.')).toBeVisible();
  await key(/^Topped up/).click();
  await key(/goes in/).click();
  await expect.element(key(/^Our start value: ¼ cup\.$/)).toBeVisible();
  await fits();
});

test('checklist 58: the keys of the map tell whose bad ones their order comes from', async () => {
  const order = async (says: string) => {
    table.pass(1_000);
    await key(/^Log now/).click();
    await key(/^Cavity 1,/).click();
    await key('More').click();
    await expect.element(page.getByText(says)).toBeVisible();
  };
  await order('shot 1: the usual order');
  table = await aTable(async (book) => {
    const mould = await aMould(book, 'Shad 7', { rows: 2, cols: 2 });
    const fills = ['gddg', 'ggdd', 'gdgs'].map((gave) => ({ mould, gave }));
    await pourEvening(book, { fills, at: seven - 86_400_000 });
    return { mouldIds: [mould.id] };
  });
  await order('shot 1: by your 6 bad ones');
});

test('checklist 58: the cold line says whose shots it comes from, and nothing where there is none', () => {
  const guessed = { readings: 0, massFrom: 'guessed' } as never;
  expect(mouldTempFrom(guessed, { warmAboveK: 31, warmFrom: 'shots' })).toBe(
    'Worked out; its weight is our guess. Cold line: its own shots.',
  );
  expect(mouldTempFrom(guessed, { warmAboveK: 31, warmFrom: 'temperature' })).toContain(
    'own shots',
  );
  expect(mouldTempFrom(guessed, { warmAboveK: null })).toBe('Worked out; its weight is our guess.');
});
