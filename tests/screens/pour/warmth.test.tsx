import { expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { changeSettings } from '#store/settings.ts';
import { aMould, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show } from '../../hands/show.tsx';

const day = 86_400_000;

test('the good run of the same mould lies behind the present one, and says when and what it gave', async () => {
  const shop = await aShop();
  const mould = await aMould(shop.book, 'Grub 50');
  const fills = (gave: string, count: number) =>
    Array.from({ length: count }, () => ({ mould, gave }));
  await pourEvening(shop.book, { fills: fills('gggg', 12), at: seven - 9 * day });
  await pourEvening(shop.book, { fills: fills('gsgs', 12), at: seven - 5 * day });
  const sessionId = await pourEvening(shop.book, { fills: fills('gggs', 6) });
  show(shop, <SessionScreen sessionId={sessionId} />);
  await expect.element(page.getByRole('heading', { name: 'Warmth' })).toBeVisible();
  await expect.element(page.getByText(/48 of 48 good\. No pot was reheated\.$/)).toBeVisible();
  const picture = page.getByRole('img', { name: /^Grub 50: .* at 0 min, / });
  await expect.element(picture).toBeVisible();
  const paths = picture.element().querySelectorAll('path');
  expect([...paths].filter((path) => (path.getAttribute('d') ?? '').length > 40)).toHaveLength(2);
});

test('with no good run, and no reading of the pot, there is just the mould', async () => {
  const shop = await aShop();
  const mould = await aMould(shop.book, 'Grub 50');
  const fills = Array.from({ length: 6 }, () => ({ mould, gave: 'gggg' }));
  const sessionId = await pourEvening(shop.book, { fills });
  show(shop, <SessionScreen sessionId={sessionId} />);
  await expect.element(page.getByRole('heading', { name: 'Warmth' })).toBeVisible();
  expect(page.getByText(/^Dashed/).elements()).toEqual([]);
  expect(page.getByRole('heading', { name: 'Pot, read' }).elements()).toEqual([]);
});

test('a window is set in steps, and cannot be turned inside out', async () => {
  const shop = await aShop();
  await changeSettings(shop.book, { pourC: 165 }, seven);
  const { WorkshopScreen } = await import('#screens/workshop/WorkshopScreen.tsx');
  const { settingsOf } = await import('#store/settings.ts');
  show(shop, <WorkshopScreen />);
  await page.getByText('What a session begins with').click();
  const from = page.getByRole('group', { name: 'Pouring window, from' });
  await from.getByRole('button', { name: 'One degree more' }).click();
  const window = async () => (await settingsOf(shop.book)).pourWindow;
  await expect.poll(window).toEqual({ fromC: 160, toC: 170 });
  for (let press = 0; press < 12; press += 1) {
    await from.getByRole('button', { name: 'One degree more' }).click();
  }
  await expect.poll(window).toEqual({ fromC: 169, toC: 170 });
  await page.getByRole('button', { name: 'No window' }).click();
  await expect.poll(window).toBeNull();
});
