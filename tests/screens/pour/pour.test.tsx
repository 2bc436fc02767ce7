import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { tableOf } from '#calc/table.ts';
import type { Mould } from '#model/mould.ts';
import { PourScreen } from '#screens/pour/PourScreen.tsx';
import { runningEntries } from '#store/sessions.ts';
import { changeSettings } from '#store/settings.ts';
import { aColourway, aMould, type Fill, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

const day = 86_400_000;
let shop: TestShop;
let grub: Mould;
let shad: Mould;

beforeEach(async () => {
  shop = await aShop();
  grub = await aMould(shop.book, 'Grub 50', { rows: 2, cols: 4 });
  shad = await aMould(shop.book, 'Shad 7');
});

const shots = (mould: Mould, ...gave: string[]): Fill[] =>
  gave.map((one) => ({ mould, gave: one }));
const open = () => show(shop, <PourScreen />);
const key = (name: string | RegExp) => page.getByRole('button', { name });
const link = (name: string | RegExp) => page.getByRole('link', { name });

describe('the last day', () => {
  test('counts what was logged, and leads to its page', async () => {
    await pourEvening(shop.book, {
      fills: [...shots(grub, 'sggggsgg', 'gggggsgg'), ...shots(shad, 'gggg', 'gdnn')],
    });
    open();
    // 16 + 8 cavities; 3 short and 1 dent, 2 that nobody looked at.
    await expect.element(page.getByText('18 of 22 good')).toBeVisible();
    await expect.element(page.getByText('13 of 16')).toBeVisible();
    await expect.element(page.getByText('5 of 6')).toBeVisible();
    await expect
      .element(
        page.getByText(
          /^Every shot was cold\. 2 not checked\. Most bad: Grub 50, cavity 6, 2 of 2\./,
        ),
      )
      .toBeVisible();
    await expect.element(link('Yesterday, Tue 24 Nov')).toHaveAttribute('href', '#/day/2026-11-24');
  });

  test('holds both sessions of a day, and the list only those before', async () => {
    for (const at of [seven - day, seven, seven + 120 * 60_000]) {
      await pourEvening(shop.book, { at, fills: shots(shad, 'gggg') });
    }
    open();
    await expect.element(page.getByText('8 of 8 good')).toBeVisible();
    await expect.element(link(/^Mon 23 Nov/)).toBeVisible();
    await expect
      .element(page.getByRole('listitem').filter({ hasText: 'Tue' }))
      .not.toBeInTheDocument();
  });

  test('names no worst cavity when two were bad as often', async () => {
    await pourEvening(shop.book, { fills: shots(shad, 'ssgg', 'ssgg') });
    open();
    await expect.element(page.getByText('4 of 8 good')).toBeVisible();
    await expect.element(page.getByText(/Most bad/)).not.toBeInTheDocument();
  });
});

describe('starting with the same moulds', () => {
  test('begins one session with the same moulds and colour, and leads to the table', async () => {
    await changeSettings(shop.book, { cautionsReadAt: seven }, seven);
    const colourway = await aColourway(shop.book, 'Peat brown 3', '#5b4029');
    await pourEvening(shop.book, {
      colourway,
      fills: [...shots(grub, 'gggggggg'), ...shots(shad, 'gggg')],
    });
    open();
    const start = key('Start with the same moulds Grub 50 + Shad 7, Peat brown 3');
    await start.dblClick();
    await expect.poll(() => window.location.hash).toBe('#/table');
    // One that comes when it has begun, and the table is not there yet.
    await start.click();
    await new Promise((resolve) => setTimeout(resolve, 300));
    const entries = (await runningEntries(shop.book)) ?? [];
    const table = tableOf(entries);
    expect(table.seats.map(({ mould }) => mould.name)).toEqual(['Grub 50', 'Shad 7']);
    expect(table.potsInUse.map(({ colourwayName }) => colourwayName)).toEqual(['Peat brown 3']);
    expect(await shop.book.db.count('entries')).toBe(entries.length);
  });

  test('leads past the cautions while nobody has read them', async () => {
    await pourEvening(shop.book, { fills: shots(shad, 'gggg') });
    open();
    await key(/^Start with the same moulds/).click();
    await expect.poll(() => window.location.hash).toBe('#/cautions');
  });
});

describe('carrying on', () => {
  test('opens the last session again', async () => {
    await changeSettings(shop.book, { cautionsReadAt: seven }, seven);
    await pourEvening(shop.book, { fills: shots(shad, 'gggg'), endMin: 130 });
    open();
    await key("Carry on Tuesday's session ended 21:12").click();
    await expect.poll(() => window.location.hash).toBe('#/table');
    expect(tableOf((await runningEntries(shop.book)) ?? []).endedAt).toBeNull();
  });

  test('is offered for 18 hours and no longer', async () => {
    await pourEvening(shop.book, { fills: shots(shad, 'gggg'), endMin: 60 });
    const over = seven + 60 * 60_000 + 18 * 3_600_000;
    shop.set(over - 1);
    open();
    await expect.element(key(/^Carry on/)).toBeVisible();
    shop.set(over);
    open();
    await expect.element(key(/^Start with/)).toBeVisible();
    await expect.element(key(/^Carry on/)).not.toBeInTheDocument();
  });
});

describe('the past', () => {
  test('comes ten at a time, newest first, and ends', async () => {
    for (let back = 22; back >= 0; back -= 1) {
      await pourEvening(shop.book, { at: seven - back * day, fills: shots(shad, 'gggg') });
    }
    open();
    const rows = page.getByRole('link', { name: /Shad 7/ });
    await expect.poll(() => rows.length).toBe(9);
    await expect.element(rows.first()).toHaveTextContent(/^Mon 23 Nov/);
    await key('Show more').click();
    await expect.poll(() => rows.length).toBe(19);
    await key('Show more').click();
    await expect.poll(() => rows.length).toBe(22);
    await expect.element(key('Show more')).not.toBeInTheDocument();
  });

  test('never shows a range for two shots, and never a share without its count', async () => {
    await pourEvening(shop.book, { at: seven - day, fills: shots(shad, 'gsgg', 'gggg') });
    await pourEvening(shop.book, { fills: shots(shad, 'gggg') });
    open();
    await expect
      .element(link(/^Mon 23 Nov/))
      .toHaveTextContent('Mon 23 Nov7 of 8Shad 7, Pot 1too few to tell');
    await expect.element(page.getByText(/%/)).not.toBeInTheDocument();
  });
});

test('before the first pour there is nothing but the way to it', async () => {
  open();
  await expect.element(link('Choose moulds')).toHaveAttribute('href', '#/line-up');
  await expect.element(link('Workshop')).toHaveAttribute('href', '#/workshop');
  await expect.element(page.getByRole('heading', { level: 2 })).not.toBeInTheDocument();
});
