import { expect, test } from '@playwright/test';
import { key, type lineUp, mainKey, openApp, pressMain, stored } from './hands.ts';

const databases = async () => (await indexedDB.databases()).map(({ name }) => name).sort();

test('the demo shop is a shop of its own, and one key removes every trace', async ({ page }) => {
  await openApp(page);
  await page.getByRole('link', { name: 'Look round a demo shop' }).click();
  await expect(page.getByText('Demo: made-up numbers')).toBeVisible();
  await expect(page.getByRole('heading', { level: 1, name: 'Moulds' })).toBeVisible();
  await expect(page.getByText('Grub 50').first()).toBeVisible();
  await page.getByRole('link', { name: 'Which cavity is bad?' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Grub 50' })).toBeVisible();
  expect(await page.evaluate(databases)).toEqual(['warmshot', 'warmshot-demo']);

  await page.goto('./');
  await expect(page.getByRole('button', { name: 'Log a pour now' })).toBeVisible();

  await page.goto('./?demo#/workshop');
  await page.getByRole('button', { name: 'Leave demo' }).click();
  await expect(page.getByRole('button', { name: 'Log a pour now' })).toBeVisible();
  expect(new URL(page.url()).search).toBe('');
  expect(await page.evaluate(databases)).toEqual(['warmshot']);
});

test('the demo shop comes with no network, once the app is stored', async ({ page, context }) => {
  await openApp(page);
  await stored(page);
  await context.setOffline(true);
  await page.getByRole('link', { name: 'Look round a demo shop' }).click();
  await expect(page.getByText('Demo: made-up numbers')).toBeVisible();
  await expect(page.getByText('Grub 50').first()).toBeVisible();
});

test('the clocks of the demo table run ten times as fast, and go on so after a reload', async ({
  page,
}) => {
  await page.goto('./?demo#/moulds');
  await expect(page.getByText('Demo: made-up numbers')).toBeVisible();
  await page.evaluate(() => {
    window.location.hash = '#/line-up';
  });
  await lineUpIn(page, 'Grub 50');
  // No band over the table: the round line says it, on every glass.
  for (const [width, height] of [
    [320, 568],
    [740, 360],
    [1024, 768],
    [360, 740],
  ] as const) {
    await page.setViewportSize({ width, height });
    await expect(
      page.getByRole('region', { name: 'This evening' }).getByText(/Demo/),
    ).toBeVisible();
  }
  await pressMain(page, /^Filled/);
  await expect.poll(() => mainKey(page)).toMatch(/^Setting/);
  const leftSec = async () => {
    const words = await page.locator('article [role="timer"]').first().textContent();
    const found = /(\d+):(\d\d)/.exec(words ?? '');
    return found ? Number(found[1]) * 60 + Number(found[2]) : Number.NaN;
  };
  const [before, from] = [await leftSec(), Date.now()];
  await page.waitForTimeout(8_000);
  const [after, until] = [await leftSec(), Date.now()];
  const pace = (before - after) / ((until - from) / 1_000);
  expect(pace).toBeGreaterThan(8);
  expect(pace).toBeLessThan(12);
  await page.reload();
  await expect(key(page, /^Setting|^All good/)).toBeVisible();
});

async function lineUpIn(page: Parameters<typeof lineUp>[0], name: string): Promise<void> {
  await page.getByRole('button', { name: new RegExp(`^${name}\\b`) }).click();
  await page.getByRole('button', { name: /^Start pouring/ }).click();
  const read = page.getByRole('button', { name: /^I have read this/ });
  const table = page.locator('nav[aria-label="Log"]');
  await expect(read.or(table)).toBeVisible();
  if (await read.isVisible()) await read.click();
  await expect(table).toBeVisible();
}
