import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, type Page } from '@playwright/test';
import { figure } from './figure.ts';
import { firstSession } from './hands.ts';
import { finish, openAt, type Site, stored, test, theMainKey } from './site.ts';

const home = join(import.meta.dirname, '../..');
const next = 'tests/out/next';
const takeIt = { name: 'Take it now' };

/** Every address that needs no record. */
const withoutRecords = [
  ...['line-up', 'day/2026-11-24', 'cautions', 'moulds', 'mould-facts/new', 'yields', 'colours'],
  ...['colour-facts/new', 'find-photo', 'take-mix/', 'ideas', 'shelf', 'material-facts/new'],
  ...['bait-cost', 'workshop', 'injector-facts/new', 'glove-check', 'sound-check', 'pedal-check'],
  ...['keep', 'open-copy', 'tables'],
];
/** How often each way of taking a newer version is gone. */
const times = [1, 2];

/** One way to take a newer version came to its end as it should. */
const taken = (reached: string) =>
  figure({
    drill: 'A newer version comes',
    required: `5 ways, ${times.length} times each: 0 loads and 0 failed pages in a session, then exactly 1 load`,
    reached,
    isMet: true,
  });

// One after the other: they share the second build.
test.describe.configure({ mode: 'default' });

// The same sources built to other file names: for the browser that is a newer version, of which no
// file of the older one is left on the host.
test.beforeAll(() => {
  const build = ['vite', 'build', '--outDir', join(home, next), '--assetsDir', 'next'];
  execFileSync('npx', [...build, '--logLevel', 'error'], { cwd: home, stdio: 'inherit' });
});

/** Which build a window runs. */
async function versionOf(page: Page): Promise<string> {
  const src = await page.locator('script[type="module"]').getAttribute('src');
  return src?.split('/').at(-2) ?? '';
}

/** Counts how often a window loads anew from now on; asked once the window has come to rest. */
function loadsOf(page: Page): () => Promise<number> {
  let count = 0;
  page.on('load', () => {
    count += 1;
  });
  return async () => {
    await page.waitForLoadState('networkidle');
    return count;
  };
}

/** Two windows that the first version serves. */
async function twoWindows(page: Page, site: Site): Promise<[Page, Page]> {
  await page.goto(site.url);
  await stored(page);
  await page.reload();
  const other = await page.context().newPage();
  await other.goto(site.url);
  for (const window of [page, other]) {
    // A window fetches its later screens when it has nothing better to do.
    await window.waitForLoadState('networkidle');
    expect(await versionOf(window)).toBe('assets');
  }
  return [page, other];
}

/** The newer version is on the host, and the browser has looked and fetched it. */
async function publishNext(page: Page, site: Site): Promise<void> {
  site.publish(join(home, next));
  await page.evaluate(async () => {
    const found = await navigator.serviceWorker.getRegistration();
    await found?.update();
  });
  await expect.poll(() => isWaiting(page), { timeout: 30_000 }).toBe(true);
}

async function isWaiting(page: Page): Promise<boolean> {
  return await page.evaluate(async () => {
    const found = await navigator.serviceWorker.getRegistration();
    return Boolean(found?.waiting);
  });
}

/** Takes the newer version by its key, which comes with the next screen. */
async function take(page: Page, site: Site): Promise<void> {
  const key = page.getByRole('button', takeIt);
  await expect(async () => {
    await page.goto(`${site.url}#/colours`);
    await page.goto(`${site.url}#/moulds`);
    await expect(key).toBeVisible({ timeout: 500 });
  }).toPass();
  await key.click();
}

/** What an impatient older build would do: tells the newer worker to take over, asking nobody. */
async function force(page: Page): Promise<void> {
  await page.waitForLoadState('networkidle');
  await page.evaluate(async () => {
    const found = await navigator.serviceWorker.getRegistration();
    const changed = new Promise((resolve) => {
      navigator.serviceWorker.addEventListener('controllerchange', resolve, { once: true });
    });
    found?.waiting?.postMessage({ type: 'SKIP_WAITING' });
    await changed;
  });
}

for (const time of times) {
  test(`a session is never reloaded, whatever another window does; the newer version comes after it, time ${time}`, async ({
    page,
    site,
    heard,
  }) => {
    const [pouring, reading] = await twoWindows(page, site);
    await firstSession(pouring);
    await openAt(reading, site, '#/table');
    const loads = loadsOf(pouring);
    await publishNext(reading, site);

    // A page to read beside the running session has no key for the update.
    await reading.goto(`${site.url}#/moulds`);
    await expect(reading.getByRole('heading', { name: /^Moulds/ })).toBeVisible();
    await expect(reading.getByRole('button', takeIt)).toHaveCount(0);

    await force(reading);
    await theMainKey(pouring).click();
    await expect(pouring.getByRole('button', { name: /^Undo/ })).toContainText('Filled');
    await pouring.getByRole('button', { name: /^Open now/ }).click();
    await pouring.getByRole('button', { name: /^Cavity 3,/ }).click();

    // The older version's files are gone from host and device, and every page of it still opens.
    for (const address of withoutRecords) {
      await pouring.goto(`${site.url}#/${address}`);
      await expect(pouring.locator('h1').first(), address).toBeVisible();
      await expect(pouring.getByRole('alert'), address).toHaveCount(0);
    }
    await pouring.goto(`${site.url}#/table`);
    await expect(pouring.getByRole('button', { name: 'Cavity 3, Short' })).toBeVisible();
    await pouring.getByRole('button', { name: /^Back/ }).click();
    await finish(pouring);
    expect(await loads()).toBe(0);
    expect(await versionOf(pouring)).toBe('assets');

    await pouring.getByRole('button', takeIt).click();
    await expect.poll(() => versionOf(pouring)).toBe('next');
    await expect(pouring.getByRole('heading', { name: /^Pour/ })).toBeVisible();
    await expect(pouring.getByRole('button', takeIt)).toHaveCount(0);
    await expect(pouring.getByRole('heading', { name: /^Today/ })).toBeVisible();
    expect(await loads()).toBe(1);
    expect(heard).toEqual([]);
    taken(
      `in a session: 0 loads, ${withoutRecords.length} of ${withoutRecords.length} pages, marks kept, then 1`,
    );
  });

  test(`with no session open one press brings the newer version to both windows, each by one load, time ${time}`, async ({
    page,
    site,
    heard,
  }) => {
    const [here, there] = await twoWindows(page, site);
    const loads = [loadsOf(here), loadsOf(there)];
    await publishNext(here, site);
    await take(here, site);
    for (const window of [here, there]) await expect.poll(() => versionOf(window)).toBe('next');
    await expect(here.getByRole('heading', { name: /^Moulds/ })).toBeVisible();
    await expect(there.getByRole('button', { name: 'Log a pour now' })).toBeVisible();
    expect(await Promise.all(loads.map((count) => count()))).toEqual([1, 1]);
    expect(heard).toEqual([]);
    taken('two windows, no session: 1 each');
  });

  test(`a window that no worker serves, as after a hard reload, takes a newer version too, time ${time}`, async ({
    page,
    site,
  }) => {
    const [here] = await twoWindows(page, site);
    const browser = await here.context().newCDPSession(here);
    const loaded = here.waitForEvent('load');
    await browser.send('Page.reload', { ignoreCache: true });
    await loaded;
    await here.waitForLoadState('networkidle');
    expect(await here.evaluate(() => navigator.serviceWorker.controller)).toBeNull();
    await publishNext(here, site);
    const loads = loadsOf(here);
    await take(here, site);
    await expect.poll(() => versionOf(here)).toBe('next');
    await expect(here.getByRole('heading', { name: /^Moulds/ })).toBeVisible();
    expect(await loads()).toBe(1);
    taken('no worker: 1');
  });

  test(`the key loads the page anew even if another window was quicker, time ${time}`, async ({
    page,
    site,
  }) => {
    const [here, there] = await twoWindows(page, site);
    await firstSession(there);
    await publishNext(here, site);
    await openAt(here, site, '#/table');
    await force(here);
    await finish(there);
    await expect(there.getByRole('button', takeIt)).toBeVisible();
    expect(await isWaiting(there)).toBe(false);
    const loads = loadsOf(there);
    await there.getByRole('button', takeIt).click();
    await expect.poll(() => versionOf(there)).toBe('next');
    expect(await loads()).toBe(1);
    taken('another was quicker: 1');
  });

  test(`a version that comes while only the pouring window is open waits for the end of the session, time ${time}`, async ({
    page,
    site,
    heard,
  }) => {
    await page.goto(site.url);
    await stored(page);
    await page.reload();
    await page.waitForLoadState('networkidle');
    await firstSession(page);
    const loads = loadsOf(page);
    await publishNext(page, site);
    await theMainKey(page).click();
    await expect(page.getByRole('button', { name: /^Undo/ })).toContainText('Filled');
    await finish(page);
    expect(await loads()).toBe(0);
    expect(await versionOf(page)).toBe('assets');
    await page.getByRole('button', takeIt).click();
    await expect.poll(() => versionOf(page)).toBe('next');
    expect(await loads()).toBe(1);
    expect(heard).toEqual([]);
    taken('alone: 0 loads, then 1');
  });
}
