import { deflateRawSync } from 'node:zlib';
import { expect, type Page } from '@playwright/test';
import { firstSession, key, lineUp, openApp, press, pressMain } from './hands.ts';
import { finish, recordsOf, test } from './site.ts';

const line = (page: Page) => page.getByText('Table left; clocks run on.');
/** A mix as another phone writes it into a link: its JSON deflated (RFC 1951), in base64url. */
const reedLink = deflateRawSync(
  JSON.stringify({
    made: 'mix',
    form: 1,
    name: 'Reed',
    baseMl: 240,
    materials: [{ name: 'Peat', kind: 'colourant', flake: null, swatch: '#5a4630', unit: 'mL' }],
    sides: [
      {
        role: 'only',
        name: 'Reed',
        swatch: '#6b7a3a',
        plastisol: null,
        doses: [{ material: 0, amount: 4, unit: 'drop', isPinned: false }],
      },
    ],
  }),
).toString('base64url');
const toTheTable = (page: Page) => page.getByRole('link', { name: 'Back to the table' });
const table = (page: Page) => page.locator('nav[aria-label="Log"]');

test('Back leads from the table to the desk, which says so once, and never round to the table', async ({
  page,
}) => {
  await openApp(page);
  await firstSession(page);
  await finish(page);
  await lineUp(page, ['Mould 1']);
  await pressMain(page, /^Filled/);
  await press(page, /^Open now/);
  await press(page, /^Cavity 3,/);
  const lines = await recordsOf(page, 'entries');

  // As often as a sleeve may press it: line-up, Pour and the first screen lie behind.
  for (let back = 0; back < 3; back += 1) {
    await page.goBack();
    await expect(page).toHaveURL(/#\/moulds$/);
    await expect(line(page)).toHaveCount(1);
    await expect(toTheTable(page)).toHaveCount(1);
    await expect(table(page)).toHaveCount(0);
  }
  await page.getByRole('link', { name: 'Mould 1' }).first().click();
  await expect(line(page)).toBeVisible();
  await toTheTable(page).click();
  await expect(table(page)).toBeVisible();
  // Nothing lost: the log, and the mark that was not saved.
  expect(await recordsOf(page, 'entries')).toEqual(lines);
  await expect(key(page, /^Cavity 3, Short/)).toBeVisible();
  // From here Back leads to the page the person came from.
  await page.goBack();
  await expect(page).toHaveURL(/#\/mould\//);
  await expect(line(page)).toBeVisible();

  // An app that was killed opens on the table again; what it was left on lies behind.
  await page.reload();
  await expect(table(page)).toBeVisible();
  await page.goBack();
  await expect(page).toHaveURL(/#\/mould\//);
  await toTheTable(page).click();
  await page.reload();
  await expect(table(page)).toBeVisible();
  await pressMain(page, /^Save/);
  await finish(page);
  await expect(line(page)).toHaveCount(0);
  await page.goBack();
  await expect(page).not.toHaveURL(/#\/table/);
});

test('an app that opens on the table has the desk behind it', async ({ page }) => {
  await openApp(page);
  await firstSession(page);
  await page.goto('about:blank');
  await openApp(page);
  await expect(table(page)).toBeVisible();
  await page.goBack();
  await expect(page).toHaveURL(/#\/moulds$/);
  await expect(line(page)).toBeVisible();
});

test('a mix whose link is opened in a session is there after it, and after a restart', async ({
  page,
}) => {
  await openApp(page);
  await firstSession(page);
  await page.goto('about:blank');
  await page.goto(`./#/take-mix/${reedLink}`);
  await expect(table(page)).toBeVisible();
  await expect(page.getByText('The mix sent to you is kept.').first()).toBeVisible();
  // The phone is put away, and the app begins anew at its own address.
  await page.goto('about:blank');
  await openApp(page);
  await expect(table(page)).toBeVisible();
  await page.goBack();
  await page.getByRole('link', { name: 'The mix sent to you' }).click();
  await expect(page.getByText('Peat: 4 drops')).toBeVisible();
  await toTheTable(page).click();
  await finish(page);
  await page.goto('./#/pour');
  await page.getByRole('link', { name: 'Look at it' }).click();
  await page.getByRole('button', { name: 'Take it as a new colour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Reed' })).toBeVisible();
  await page.goto('./#/pour');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await expect(page.getByRole('link', { name: 'Look at it' })).toHaveCount(0);
});
