import { expect, type Page } from '@playwright/test';
import { figure } from './figure.ts';
import { firstSession } from './hands.ts';
import { openAt, stored, test, theMainKey } from './site.ts';

/** Takes the stored file whose address has this name in it away from the app; answers with its address. */
async function takeAway(page: Page, name: string): Promise<string> {
  return await page.evaluate(async (part) => {
    for (const cacheName of await caches.keys()) {
      const cache = await caches.open(cacheName);
      const [request] = (await cache.keys()).filter(({ url }) => url.includes(part));
      const response = request && (await cache.match(request));
      if (!request || !response) continue;
      await (await caches.open('aside')).put(request, response);
      await cache.delete(request);
      return request.url;
    }
    throw new Error('There is no such file.');
  }, name);
}

/** Puts it back where it was. */
async function giveBack(page: Page, url: string): Promise<void> {
  await page.evaluate(async (address) => {
    const response = await (await caches.open('aside')).match(address);
    const home = (await caches.keys()).find((name) => name !== 'aside');
    if (!home || !response) throw new Error('It was not put aside.');
    await (await caches.open(home)).put(address, response);
  }, url);
}

test('a page whose file could not be read comes by a later try, and nothing in memory is lost', async ({
  page,
  site,
}) => {
  await page.goto(site.url);
  await firstSession(page);
  await stored(page);
  await page.goto(`${site.url}icon.svg`);
  const file = await takeAway(page, 'KeepScreen');
  await site.stop();
  // Every address that the file was asked for under, and whether it came.
  const failed: string[] = [];
  const came: string[] = [];
  page.on('requestfailed', (request) => {
    if (request.url().startsWith(file)) failed.push(request.url());
  });
  page.on('response', (response) => {
    if (response.url().startsWith(file) && response.ok()) came.push(response.url());
  });

  await openAt(page, site);
  await expect(theMainKey(page)).toBeVisible();
  await page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    // The device stores no press: what is pressed now lies in the memory of this page alone.
    IDBObjectStore.prototype.put = function (...given) {
      if (this.name === 'entries') throw new DOMException('No.', 'UnknownError');
      return put.apply(this, given);
    };
    Reflect.set(window, 'storesAgain', () => {
      IDBObjectStore.prototype.put = put;
    });
  });
  await theMainKey(page).click();
  const alarm = page.getByRole('alert');
  await expect(alarm).toContainText('Not saving');
  // It is fetched ahead, as every page is: the browser keeps that failure for as long as this page lives.
  await expect.poll(() => failed.length).toBeGreaterThan(0);
  await giveBack(page, file);
  await page.evaluate(() => {
    window.location.hash = '#/keep';
  });
  await expect(page.locator('h1')).toContainText('Take a copy');
  expect(new Set(failed).size).toBe(failed.length);
  expect(came).toHaveLength(1);

  // The same page of the browser as before: what waited in it still waits, and is stored in the end.
  await page.evaluate(() => {
    window.location.hash = '#/table';
  });
  await expect(alarm).toContainText('Not saving');
  await expect(page.getByRole('button', { name: /^Undo/ })).toContainText('Filled');
  await page.evaluate(() => Reflect.get(window, 'storesAgain')());
  await expect(alarm).toHaveCount(0);
  await openAt(page, site);
  await expect(page.getByRole('button', { name: /^Undo/ })).toContainText('Filled');
  figure({
    drill: 'A file of the app cannot be read for a moment',
    required: 'its page comes without a new start; a press that waits in memory is stored',
    reached: `came at try ${failed.length + 1}; stored`,
    isMet: came.length === 1,
  });
});
