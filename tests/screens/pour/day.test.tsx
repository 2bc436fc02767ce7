import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { DayScreen } from '#screens/pour/DayScreen.tsx';
import { aMould, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

test('a day is all its sessions together, mould by mould, with a way to each', async () => {
  const grub = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, { partMl: 10 });
  const shad = await aMould(shop.book, 'Shad 7', { rows: 2, cols: 2 }, { partMl: 10 });
  const first = await pourEvening(shop.book, {
    fills: [
      { mould: grub, gave: 'gssg' },
      { mould: grub, gave: 'ggsg' },
      { mould: shad, gave: 'gggg' },
    ],
  });
  const second = await pourEvening(shop.book, {
    at: seven + 120 * 60_000,
    fills: [{ mould: grub, gave: 'ggsn' }],
  });
  await pourEvening(shop.book, { at: seven + 86_400_000, fills: [{ mould: grub, gave: 'ssss' }] });
  show(shop, <DayScreen day="2026-11-24" />);

  await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent(/^Tue 24 Nov/);
  await expect.element(page.getByText('11 of 15 good')).toBeVisible();
  // Four bad baits of 10 mL at 1.05 g/mL.
  await expect.element(page.getByText('42 g')).toBeVisible();
  await expect
    .element(page.getByText('Cavity 3 was bad most: 3 of 3. 1 not checked.'))
    .toBeVisible();
  await expect.element(page.getByText('None was bad.')).toBeVisible();
  for (const sessionId of [first, second]) {
    expect(document.querySelector(`a[href="#/session/${sessionId}"]`)).not.toBeNull();
  }
});

test('the picture has its numbers in a table, as the mould was on that day', async () => {
  const mould = await aMould(shop.book, 'Grub 50', { rows: 1, cols: 3 });
  await pourEvening(shop.book, {
    fills: [
      { mould, gave: 'gsn' },
      { mould, gave: 'gsg' },
    ],
  });
  show(shop, <DayScreen day="2026-11-24" />);
  await page.getByText('As a table').click();
  const rows = page.getByRole('table').getByRole('row');
  await expect
    .poll(() => rows.elements().map((row) => [...row.children].map((c) => c.textContent)))
    .toEqual([
      ['Cavity', 'Bad', 'Looked at'],
      ['1', '0', '2'],
      ['2', '2', '2'],
      ['3', '0', '1'],
    ]);
});

test('a day without a finished session says so', async () => {
  show(shop, <DayScreen day="2026-11-20" />);
  await expect
    .element(page.getByText('A finished session of Fri 20 Nov is not in this logbook.'))
    .toBeVisible();
});
