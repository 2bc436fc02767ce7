import { expect, test } from '@playwright/test';
import { violationsOn } from './axe.ts';
import { addMould, key, lineUp, openApp, press, pressMain } from './hands.ts';

test('axe finds nothing on any screen, in either palette; the table keeps 7:1', async ({
  page,
}) => {
  test.setTimeout(150_000);
  const found: string[] = [];
  const look = async (where: string, isTable = false) => {
    found.push(...(await violationsOn(page, where, isTable)));
  };
  await openApp(page);
  await look('start');
  await page.getByRole('button', { name: 'Log a pour now' }).click();
  await page.getByRole('button', { name: 'Other' }).click();
  await look('shape');
  await addMould(page, 'Grub 50', 2, 4);
  await addMould(page, 'Shad 7', 2, 2);
  await page.goto('./#/line-up');
  await page.getByRole('button', { name: /^Grub 50/ }).click();
  await look('line-up');
  await lineUp(page, ['Shad 7']);
  await look('table empty', true);
  await key(page, /^Filled/).click();
  await expect(key(page, /^Open now/)).toBeVisible();
  await look('table setting', true);
  await press(page, /^Open now/);
  await look('table open', true);
  await press(page, /^Mark bad/);
  await press(page, /^Cavity 2/);
  await look('map', true);
  await press(page, /^Save/);
  await press(page, /^Pot:/);
  await look('pot', true);
  await press(page, /^New mix/);
  await look('mix', true);
  await press(page, /^Table/);
  await look('set-up', true);
  await press(page, /^1 Grub/);
  await look('one mould', true);
  await press(page, /^Trial/);
  await look('trial', true);
  await press(page, /^Back/);
  await press(page, /^All moulds/);
  await press(page, /^Finish/);
  await expect(page.getByRole('heading', { level: 1, name: 'Pour' })).toBeVisible();
  // So tall that nothing lies under the bar of the places, where a target looks smaller than it is.
  await page.setViewportSize({ width: 360, height: 8_000 });
  await look('pour');
  const places = [
    'moulds',
    'yields',
    'colours',
    'colour-facts/new',
    'mould-facts/new',
    'workshop',
    'injector-facts/new',
  ];
  for (const place of places) {
    await page.goto(`./#/${place}`);
    await expect(page.locator('h1')).toBeVisible();
    await look(place);
  }
  await page.goto('./#/moulds');
  await page.getByRole('link', { name: /Shad 7/ }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Shad 7' })).toBeVisible();
  await look('mould');
  expect(found).toEqual([]);
});

test('axe finds nothing where parts, layers and an injector are on the table', async ({ page }) => {
  test.setTimeout(150_000);
  const found: string[] = [];
  const look = async (where: string, isTable = false) => {
    // So tall that no key of a long page lies half under the bar of places, where it looks smaller.
    if (!isTable) await page.setViewportSize({ width: 360, height: 4_000 });
    found.push(...(await violationsOn(page, where, isTable)));
    if (!isTable) await page.setViewportSize({ width: 360, height: 740 });
  };
  const fact = async (name: RegExp, ...keys: string[]) => {
    await page.goto('./#/moulds');
    await page.getByRole('link', { name }).click();
    await page.getByRole('link', { name: 'Change its facts' }).click();
    for (const one of keys) await page.getByRole('button', { name: one, exact: true }).click();
    await look(`facts ${name}`);
    await page.getByRole('button', { name: 'Save the changes' }).click();
    // The form has the same heading: the page of the mould comes once it is stored.
    await expect(page).toHaveURL(/#\/mould\//);
  };
  await openApp(page);
  for (const name of ['Curl', 'Body 9', 'Cup 4']) await addMould(page, name, 2, 2);
  await page.goto('./#/injector-facts/new');
  await page.getByLabel('Name').fill('Long one');
  await page.getByLabel(/^Holds/).fill('4');
  await page.getByRole('button', { name: /^Add/ }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Workshop' })).toBeVisible();
  await fact(/Curl/, 'Tails');
  await fact(/Body 9/, 'Curl');
  await fact(/Cup 4/, 'Open, by hand');
  await page.goto('./#/line-up');
  await page.getByRole('button', { name: 'Long one' }).click();
  await page.getByRole('button', { name: /^Body 9/ }).click();
  await look('line-up with a load');
  await page.getByRole('button', { name: /^Body 9/ }).click();
  await lineUp(page, ['Body 9', 'Cup 4']);
  await expect(page.getByRole('button', { name: /needs 4 tails, tray has 0/ })).toBeVisible();
  await look('a shortage', true);
  await press(page, /^Pot:/);
  await press(page, /^Another pot/);
  await look('another pot', true);
  await press(page, /^New colour/);
  await look('what goes in, on an empty shelf', true);
  await press(page, /^Mixed/);
  await look('two pots', true);
  await press(page, /^Skip, Body 9/);
  await pressMain(page, /^Filled Cup 4: layer 1/);
  await expect(page.getByRole('button', { name: /^Layer 2 / })).toBeVisible();
  await look('between layers', true);
  await press(page, /^Table/);
  await press(page, /^1 Body/);
  await press(page, /^Count tray/);
  await look('tray', true);
  await press(page, /^Back/);
  await press(page, /^All moulds/);
  await press(page, /^Finish/);
  await page.goto('./#/moulds');
  await page.getByRole('link', { name: /Curl/ }).click();
  await expect(page.getByText('0 tails in its tray.')).toBeVisible();
  await look('a part mould');
  expect(found).toEqual([]);
});

test('no screen scrolls sideways at 320 px, nor with text twice as large', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 568 });
  await openApp(page);
  await addMould(page, 'A mould with a rather long name of its own', 2, 4);
  for (const place of ['moulds', 'workshop', 'line-up', 'mould-facts/new', 'colour-facts/new']) {
    await page.goto(`./#/${place}`);
    await expect(page.locator('h1')).toBeVisible();
    for (const scale of [100, 200]) {
      await page.evaluate((percent) => {
        document.documentElement.style.fontSize = `${percent}%`;
      }, scale);
      const wide = await page.evaluate(() => document.scrollingElement?.scrollWidth ?? 0);
      expect(wide, `${place} at ${scale} %`).toBeLessThanOrEqual(320);
    }
  }
});
