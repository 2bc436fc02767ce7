import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from '@playwright/test';
import { firstSession } from './hands.ts';
import { finish, keysOf, openAt, stored, test, theMainKey } from './site.ts';

test('after one visit the app opens, pours and comes back to the table with no network', async ({
  page,
  site,
  heard,
}) => {
  await page.goto(site.url);
  await stored(page);
  await site.stop();

  await openAt(page, site);
  await firstSession(page);
  await theMainKey(page).click();
  await expect(page.getByRole('button', { name: /^Undo/ })).toContainText('Filled');

  // Nothing is pressed between opening the app and the table, wherever the app was left.
  for (const hash of ['', '#/moulds', '#/start', '#/nowhere']) {
    await openAt(page, site, hash);
    await expect(theMainKey(page)).toBeVisible();
    await expect(page).toHaveURL(`${site.url}#/table`);
    await expect(page.getByRole('button', { name: /^Undo/ })).toContainText('Filled');
  }
  expect(heard).toEqual([]);
});

test('every address opens by itself with no network', async ({ page, site, heard }) => {
  // Nineteen fresh starts of the app: on a busy machine three seconds each.
  test.setTimeout(150_000);
  await page.goto(site.url);
  await stored(page);
  await firstSession(page);
  await finish(page);
  const [mouldId] = await keysOf(page, 'moulds');
  const [sessionId] = await keysOf(page, 'sealed');
  await site.stop();

  const addresses = [
    'pour',
    'start',
    'cautions',
    'line-up',
    'day/2026-11-24',
    `session/${sessionId}`,
    'moulds',
    'yields',
    `mould/${mouldId}`,
    `mould-facts/${mouldId}`,
    'mould-facts/new',
    'colours',
    'colour-facts/new',
    'workshop',
    'injector-facts/new',
  ];
  for (const address of addresses) {
    await openAt(page, site, `#/${address}`);
    await expect(page.locator('main h1, header h1').first(), address).toBeVisible();
    await expect(page.getByRole('alert'), address).toHaveCount(0);
    await expect(page, address).toHaveURL(`${site.url}#/${address}`);
  }
  for (const elsewhere of ['table', 'session/nobody', 'nowhere', 'day/yesterday']) {
    await openAt(page, site, `#/${elsewhere}`);
    await expect(page.getByRole('heading', { name: /^Pour/ })).toBeVisible();
    await expect(page).toHaveURL(`${site.url}#/pour`);
  }
  expect(heard).toEqual([]);
});

test('it says once that it works with no network, and only when that is true', async ({
  page,
  site,
}) => {
  const words = page.getByText('It works with no network.');
  await page.goto(`${site.url}#/workshop`);
  await expect(page.getByRole('heading', { name: 'Workshop' })).toBeVisible();
  await expect(words).toHaveCount(0);
  await stored(page);
  await page.goto(`${site.url}#/moulds`);
  await expect(words).toBeVisible();
  await page.goto(`${site.url}#/workshop`);
  await expect(page.getByRole('heading', { name: 'Workshop' })).toBeVisible();
  await expect(words).toHaveCount(0);
  await openAt(page, site, '#/moulds');
  await expect(page.getByRole('heading', { name: 'Moulds' })).toBeVisible();
  await expect(words).toHaveCount(0);
});

test('the strict policy holds for code of the page', async ({ page, site }) => {
  // Content Security Policy Level 3 and Trusted Types, W3C. Asked from a script that the page
  // loads: what a test tool evaluates is not under the policy.
  writeFileSync(
    join(site.folder, 'probe.js'),
    `const nameOf = (act) => { try { act(); return 'went through'; } catch (error) { return error.name; } };
    window.probe = {
      markup: nameOf(() => { document.body.innerHTML = '<p>planted</p>'; }),
      code: nameOf(() => new Function('return 1')()),
      script: nameOf(() => { document.createElement('script').src = './other.js'; }),
      worker: nameOf(() => new Worker('./other.js')),
      policy: nameOf(() => window.trustedTypes.createPolicy('other', {})),
      again: nameOf(() => window.trustedTypes.createPolicy('sw', {})),
      elsewhere: await fetch('https://elsewhere.example/').then(() => 'went through', () => 'refused'),
    };`,
  );
  await page.goto(site.url);
  await expect(page.getByRole('button', { name: 'Log a pour now' })).toBeVisible();
  const refused = page.evaluate(
    () =>
      new Promise<string>((resolve) => {
        document.addEventListener('securitypolicyviolation', (event) => {
          if (event.effectiveDirective === 'connect-src') resolve(event.blockedURI);
        });
      }),
  );
  await page.evaluate((url) => import(url), `${site.url}probe.js`);
  expect(await page.evaluate(() => Reflect.get(window, 'probe'))).toEqual({
    markup: 'TypeError',
    code: 'EvalError',
    script: 'TypeError',
    worker: 'TypeError',
    policy: 'TypeError',
    again: 'TypeError',
    elsewhere: 'refused',
  });
  expect(await refused).toBe('https://elsewhere.example/');
  await expect(page.getByText('planted')).toHaveCount(0);
});

test('nothing of the page is written into it: no inline script, style or handler', async ({
  request,
  site,
}) => {
  const html = await (await request.get(site.url)).text();
  expect(html).not.toMatch(/<style|\sstyle=|\son\w+=|<script(?![^>]*\ssrc=)/);
  expect(html.indexOf('Content-Security-Policy')).toBeLessThan(html.indexOf('<script'));
});

test('the browser would install it, with its own folder as its name', async ({ page, site }) => {
  await page.goto(site.url);
  await stored(page);
  const browser = await page.context().newCDPSession(page);
  const { installabilityErrors } = await browser.send('Page.getInstallabilityErrors');
  const manifest = await browser.send('Page.getAppManifest');
  const { appId } = await browser.send('Page.getAppId');
  // A test's window is a private one, which is all that stands in the way.
  expect(installabilityErrors.map(({ errorId }) => errorId)).toEqual(['in-incognito']);
  expect(manifest.errors).toEqual([]);
  expect(appId).toBe(site.url);
});

test('in somebody else’s frame the app shows nothing and opens no logbook', async ({
  page,
  site,
}) => {
  writeFileSync(join(site.folder, 'framing.html'), '<iframe src="./index.html"></iframe>');
  await page.goto(`${site.url}framing.html`);
  const frame = page.frames()[1];
  if (!frame) throw new Error('There is no frame.');
  await frame.waitForLoadState();
  const names = await frame.evaluate(async () =>
    (await indexedDB.databases()).map(({ name }) => name),
  );
  expect(names).toEqual([]);
  await expect(frame.locator('#app')).toBeEmpty();
});

test('a logbook of a newer app is left as it is, and that is said', async ({ page, site }) => {
  await page.goto(`${site.url}icon.svg`);
  const version = () =>
    page.evaluate(async () => (await indexedDB.databases()).map((found) => found.version));
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const opening = indexedDB.open('warmshot', 99);
        opening.onsuccess = () => {
          opening.result.close();
          resolve();
        };
      }),
  );
  await page.goto(site.url);
  await expect(page.getByRole('alert')).toContainText('Your data is untouched.');
  await expect(page.getByRole('alert')).toContainText('Update the app first.');
  expect(await version()).toEqual([99]);
});
