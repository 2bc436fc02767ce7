import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { tableOf } from '#calc/table.ts';
import { cautions, whoDecides } from '#screens/cautions.ts';
import { CautionsScreen } from '#screens/start/CautionsScreen.tsx';
import { StartScreen } from '#screens/start/StartScreen.tsx';
import { headsOf } from '#store/heads.ts';
import { runningEntries } from '#store/sessions.ts';
import { settingsOf } from '#store/settings.ts';
import { drawn } from '../../hands/drawn.ts';
import { morning } from '../../hands/evening.ts';
import { fillDevice } from '../../hands/full-device.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const key = (name: string | RegExp) => page.getByRole('button', { name });
const table = async () => tableOf((await runningEntries(shop.book)) ?? []);

/** Presses a key again and again, once the page has drawn the press before. */
async function pressTimes(name: string, times: number): Promise<void> {
  for (let press = 0; press < times; press += 1) {
    (key(name).element() as HTMLElement).click();
    await drawn();
  }
}

describe('the first minutes', () => {
  test('take three presses to a running session: no name, no typing, no permission', async () => {
    show(shop, <StartScreen />);
    await key('Log a pour now').click();
    await expect.element(page.getByRole('textbox')).not.toBeInTheDocument();
    await key('2 × 4').click();
    await key('Start pouring Mould 1, 2 × 4').click();
    await expect.poll(() => window.location.hash).toBe('#/table');
    const { seats, potsInUse, zone, begunAt } = await table();
    expect(seats.map(({ mould }) => [mould.name, mould.layout])).toEqual([
      ['Mould 1', { kind: 'grid', rows: 4, cols: 2, run: 'down', from: 'top-left' }],
    ]);
    expect(potsInUse.map(({ name }) => name)).toEqual(['Pot 1']);
    expect([zone, begunAt]).toEqual(['Europe/Berlin', morning]);
  });

  test('begin one session of one mould, however often the key is pressed', async () => {
    show(shop, <StartScreen />);
    await key('Log a pour now').click();
    await key('1 × 8').click();
    await key(/^Start pouring/).dblClick();
    await expect.poll(() => window.location.hash).toBe('#/table');
    expect(await headsOf(shop.book, 'moulds')).toHaveLength(1);
    const entries = (await runningEntries(shop.book)) ?? [];
    expect(await shop.book.db.count('entries')).toBe(entries.length);
  });

  test('show every caution beside the key that counts them as read', async () => {
    show(shop, <StartScreen />);
    await key('Log a pour now').click();
    for (const line of [...cautions, whoDecides]) {
      await expect.element(page.getByText(line)).toBeVisible();
    }
    expect((await settingsOf(shop.book)).cautionsReadAt).toBeNull();
    await key('1 × 4').click();
    await key(/^Start pouring/).click();
    await expect.poll(() => window.location.hash).toBe('#/table');
    expect((await settingsOf(shop.book)).cautionsReadAt).toBe(morning);
  });

  test('offer no key for starting before a shape is chosen', async () => {
    show(shop, <StartScreen />);
    await key('Log a pour now').click();
    await expect.element(page.getByText('Choose a shape to start.')).toBeVisible();
    await expect.element(key(/^Start pouring/)).not.toBeInTheDocument();
  });

  test('say so when nothing can be stored, and the key still works', async () => {
    show(shop, <StartScreen />);
    await key('Log a pour now').click();
    await key('2 × 4').click();
    const giveRoom = fillDevice();
    await key(/^Start pouring/).click();
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent('Not saved. Free some space and press again.');
    await expect.element(key(/^Start pouring/)).toBeVisible();
    expect(window.location.hash).toBe('');
    giveRoom();
  });
});

describe('a shape of one’s own', () => {
  test('is stepped and poured', async () => {
    show(shop, <StartScreen />);
    await key('Log a pour now').click();
    await key('Other').click();
    await key('One across more').click();
    await key('One down less').click();
    await key('Start pouring Mould 1, 3 × 4').click();
    await expect.poll(() => window.location.hash).toBe('#/table');
    expect((await table()).seats[0]?.mould.layout).toMatchObject({ rows: 4, cols: 3 });
  });

  test('ends at 12 on a side, at 48 cavities and at 1, and says which', async () => {
    show(shop, <StartScreen />);
    await key('Log a pour now').click();
    await key('Other').click();
    const down = page.getByRole('group', { name: 'Down' });
    const across = page.getByRole('group', { name: 'Across' });
    await pressTimes('One down more', 20);
    await expect.element(down).toHaveTextContent('12 down12 is the most');
    await pressTimes('One across more', 20);
    await expect.element(across).toHaveTextContent('4 across48 cavities is the most');
    await pressTimes('One across less', 20);
    await expect.element(across).toHaveTextContent('1 across1 is the least');
    await expect.element(key('Start pouring Mould 1, 1 × 12')).toBeVisible();
  });
});

test('the cautions alone are read once, then lead to the table', async () => {
  show(shop, <CautionsScreen />);
  for (const line of [...cautions, whoDecides]) {
    await expect.element(page.getByText(line)).toBeVisible();
  }
  await key(/^I have read this/).click();
  await expect.poll(() => window.location.hash).toBe('#/table');
  expect((await settingsOf(shop.book)).cautionsReadAt).toBe(morning);
});

test('no caution calls anything safe, and the last word is with others', () => {
  for (const line of cautions) expect(line).not.toMatch(/\bsafe\b|\bharmless\b|\bno risk\b/i);
  expect(whoDecides).toMatch(/safety data sheets, local code and a licensed professional/);
});

test('the cautions may be skipped: they are no gate, and come again until they were read', async () => {
  show(shop, <CautionsScreen />);
  await expect
    .element(page.getByRole('link', { name: 'Skip for now' }))
    .toHaveAttribute('href', '#/table');
  await expect.element(page.getByText(/^Release agent/)).toBeVisible();
  expect((await settingsOf(shop.book)).cautionsReadAt).toBeNull();
});
