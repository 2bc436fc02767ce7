import { beforeEach, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { TablesScreen } from '#screens/keep/TablesScreen.tsx';
import { carried } from '#store/copy/header.ts';
import { headsOf } from '#store/heads.ts';
import { aMould, morning, pourEvening } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { fillShop, jpegBytes } from '../../hands/full-shop.ts';
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

test('a share sheet opens within its own press; where it is refused the table can be saved', async () => {
  let tries = 0;
  shop.files = {
    ...shop.files,
    canShare: () => true,
    share: async () => {
      tries += 1;
      if (tries === 1) throw new DOMException('Not now.', 'NotAllowedError');
      return true;
    },
  };
  show(shop, <TablesScreen />);
  await key('Take out sessions').click();
  await key('Share it').click();
  await expect
    .element(page.getByText('This phone did not share it. Save it instead.'))
    .toBeVisible();
  await key('Save it').click();
  await expect.element(page.getByText('warmshot-sessions-2026-11-25.csv is out.')).toBeVisible();
  expect(shop.handed.map(({ name }) => name)).toEqual(['warmshot-sessions-2026-11-25.csv']);
  await key('Take out stock').click();
  await key('Share it').click();
  await expect.element(page.getByText('warmshot-stock-2026-11-25.csv is out.')).toBeVisible();
  expect(tries).toBe(2);
});

test('everything goes out as one JSON text that any program reads, every record of every table', async () => {
  const mould = await aMould(shop.book, 'Craw 40');
  await pourEvening(shop.book, { fills: [{ mould, gave: null }], at: morning, endMin: null });
  const about = {
    table: 'moulds',
    key: 'm',
    record: { name: 'Broken' },
    foundAt: morning,
  } as const;
  await shop.book.db.put('meta', { name: 'aside moulds m', ...about });
  show(shop, <TablesScreen />);
  await key('Take out everything as JSON').click();
  await expect.element(page.getByText('warmshot-2026-11-25.json is out.')).toBeVisible();
  const told = JSON.parse((await shop.handed[0]?.text()) ?? '');
  expect(told).toMatchObject({ app: '1.2.3', at: '2026-11-25T08:00:00.000Z', shape: 2 });
  const out: Record<string, unknown[]> = told.tables;
  expect(Object.keys(out).sort()).toEqual([...carried].sort());
  for (const table of carried) {
    const held = await shop.book.db.getAll(table);
    expect(held.length, table).toBeGreaterThan(0);
    expect(told.counts[table], table).toBe(held.length);
    if (table !== 'photo-bytes')
      expect(out[table], table).toEqual(JSON.parse(JSON.stringify(held)));
  }
  const [picture] = out['photo-bytes'] as { id: string; bytes: string }[];
  const bytes = Uint8Array.from(atob(picture?.bytes ?? ''), (sign) => sign.charCodeAt(0));
  expect(bytes).toEqual(jpegBytes);
  expect(told.setAside).toMatchObject([{ record: { name: 'Broken' } }]);
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
