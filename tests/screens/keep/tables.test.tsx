import { beforeEach, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { TablesScreen } from '#screens/keep/TablesScreen.tsx';
import { headsOf } from '#store/heads.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { fillShop } from '../../hands/full-shop.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

const key = (name: string | RegExp) => page.getByRole('button', { name });
let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
  await fillShop(shop.book, false);
});

async function choose(text: string): Promise<void> {
  await userEvent.upload(
    page.getByLabelText('The table', { exact: true }),
    new File([text], 'moulds.csv'),
  );
}

test('each table goes out under its name and day, figures as the spreadsheet writes them', async () => {
  show(shop, <TablesScreen />);
  await key('Take out sessions').click();
  await expect.element(page.getByText('warmshot-sessions-2026-11-25.csv is out.')).toBeVisible();
  await key('1,5').click();
  await key('Take out shots').click();
  await expect.poll(() => shop.handed.length).toBe(2);
  const [sessions, shots] = await Promise.all(shop.handed.map((file) => file.text()));
  expect(sessions).toContain('"Date","Start"');
  expect(shots).toContain('"Date";"Time"');
  expect(shop.handed[1]?.name).toBe('warmshot-shots-2026-11-25.csv');
});

test('moulds come in by columns that are matched, with every line that is not taken', async () => {
  show(shop, <TablesScreen />);
  await choose('what,rows,columns\nCraw 40,2,3\nBroken,many,3\nGrub 50,2,2\n');
  await key('Look at 3 lines').click();
  await expect.element(page.getByRole('alert')).toHaveTextContent('Say which column tells: Name.');
  await userEvent.selectOptions(page.getByLabelText('Name (needed)'), 'what');
  await key('Look at 3 lines').click();
  await expect.element(page.getByText('Brings 1 mould.')).toBeVisible();
  await expect.element(page.getByText('2 lines not taken')).toBeVisible();
  await expect.element(page.getByText('Cavities: a whole number, like 8.')).toBeVisible();
  await expect.element(page.getByText('line 3', { exact: true })).toBeVisible();
  expect(await headsOf(shop.book, 'moulds')).toHaveLength(1);
  await key('Bring it in').click();
  await expect.element(page.getByText('Came in: 1 mould.')).toBeVisible();
  expect((await headsOf(shop.book, 'moulds')).map(({ name }) => name).sort()).toEqual([
    'Craw 40',
    'Grub 50',
  ]);
  await key('Undo this').click();
  await expect.poll(async () => (await headsOf(shop.book, 'moulds')).length).toBe(1);
});

test.each([
  ['', 'There is nothing in it below its first line.'],
  ['\u0000\u0001', 'This is no table of text. Save it as CSV first.'],
])('a file that is no table is refused in a sentence', async (text, sentence) => {
  show(shop, <TablesScreen />);
  await choose(text);
  await expect.element(page.getByRole('alert')).toHaveTextContent(sentence);
});

test('the page has no fault that axe knows, fits 320 px, and its keys are 48 px', async () => {
  await page.viewport(320, 568);
  const root = show(shop, <TablesScreen />);
  await choose('name,rows\nCraw 40,2\nBroken,many\n');
  await key('Look at 2 lines').click();
  await expect.element(page.getByText('1 line not taken')).toBeVisible();
  for (const palette of ['chalk', 'lamp']) {
    document.documentElement.dataset.theme = palette;
    expect(await faults(root), palette).toEqual([]);
  }
  document.documentElement.dataset.theme = 'chalk';
  expect(isNoWider()).toBe(true);
  for (const one of root.querySelectorAll('button, a, input, summary, select')) {
    const { width, height } = one.getBoundingClientRect();
    expect(Math.min(width, height), one.textContent ?? '').toBeGreaterThanOrEqual(48);
  }
});
