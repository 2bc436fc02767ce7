import { expect } from '@playwright/test';
import { figure } from './figure.ts';
import { firstSession } from './hands.ts';
import { keysOf, openAt, test, theMainKey } from './site.ts';

test('a database that the browser closes by itself is opened again, and no press is lost', async ({
  page,
  site,
  heard,
}) => {
  await page.goto(site.url);
  await firstSession(page);
  const before = await keysOf(page, 'entries');

  // Browsers do so when their storage process dies; Chromium's page about it has a button for that.
  const browser = await page.context().newPage();
  await browser.goto('chrome://indexeddb-internals');
  await browser.getByText('Force close').click();
  await page.bringToFront();

  await theMainKey(page).click();
  await expect.poll(async () => (await keysOf(page, 'entries')).length).toBe(before.length + 1);
  await expect(page.getByRole('alert')).toHaveCount(0);
  figure({
    drill: 'The browser closes the database by itself',
    required: 'the next press is stored, 0 lost',
    reached: 'stored, 0 lost',
    isMet: true,
  });
  await openAt(page, site);
  await expect(page.getByRole('button', { name: /^Undo/ })).toContainText('Filled');
  expect(heard).toEqual([]);
});

test('a database that is cleared under an open table is filled again from the second copy, without a press', async ({
  page,
  site,
}) => {
  await page.goto(site.url);
  await firstSession(page);
  await theMainKey(page).click();
  const undo = page.getByRole('button', { name: /^Undo/ });
  await expect(undo).toContainText('Filled');
  const before = await keysOf(page, 'entries');
  const held = () => page.evaluate(() => localStorage.getItem('warmshot-kept') ?? '');
  await expect.poll(held, { timeout: 20_000 }).toContain(`"entries":${before.length}`);

  const browser = await page.context().newCDPSession(page);
  const { origin } = new URL(site.url);
  await browser.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' });
  // To look into it before the app has made it anew would make another one.
  const isThere = () =>
    page.evaluate(async () =>
      (await indexedDB.databases()).some(({ name }) => name === 'warmshot'),
    );
  await expect.poll(isThere, { timeout: 30_000 }).toBe(true);
  await expect.poll(() => keysOf(page, 'entries'), { timeout: 30_000 }).toEqual(before);
  await expect(undo).toContainText('Filled');
  await openAt(page, site);
  await expect(undo).toContainText('Filled');
});
