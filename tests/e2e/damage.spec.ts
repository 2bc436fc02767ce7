import { expect } from '@playwright/test';
import { firstSession } from './hands.ts';
import { finish, keysOf, openAt, test, theMainKey } from './site.ts';

/** Waits until the second copy has a line of everything. */
async function copied(page: import('@playwright/test').Page): Promise<void> {
  await expect
    .poll(async () => {
      const entries = await keysOf(page, 'entries');
      const held = await page.evaluate(() => localStorage.getItem('warmshot-kept'));
      return JSON.parse(held ?? '{}')?.held?.records >= entries.length;
    })
    .toBe(true);
}

test('a database that is gone is noticed: the first screen never comes, and one press brings all back', async ({
  page,
  site,
  heard,
}) => {
  await page.goto(site.url);
  await firstSession(page);
  await theMainKey(page).click();
  await finish(page);
  await page.waitForTimeout(1500);
  await copied(page);
  const before = await keysOf(page, 'sealed');
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        indexedDB.deleteDatabase('warmshot').onsuccess = () => resolve();
      }),
  );
  await openAt(page, site);
  await expect(page.getByRole('heading', { name: 'The phone lost the logbook' })).toBeVisible();
  await page.screenshot({ path: '/tmp/h/lost.png' });
  await page.getByRole('button', { name: 'Put it back from the second copy' }).click();
  await expect(page.getByText('1 session and 1 mould', { exact: false })).toBeVisible();
  await page.screenshot({ path: '/tmp/h/back.png' });
  expect(await keysOf(page, 'sealed')).toEqual(before);
  expect(heard).toEqual([]);
});
