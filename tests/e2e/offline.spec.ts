import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { chromium, expect } from '@playwright/test';
import { chromiumPath, quietArgs } from './backends.ts';
import { figure } from './figure.ts';
import { firstSession } from './hands.ts';
import { everyPage, withNameless } from './pages.ts';
import { keysOf, openAt, stored, test, theMainKey } from './site.ts';

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
  // As many fresh starts of the app as it has addresses: on a busy machine three seconds each.
  test.setTimeout(300_000);
  await page.goto(`${site.url}?demo#/moulds`);
  await expect(page.getByText('Grub 50').first()).toBeVisible();
  await stored(page);
  await withNameless(page, 'warmshot-demo');
  const addresses = await everyPage(page, 'warmshot-demo');
  await site.stop();

  for (const address of addresses) {
    await openAt(page, site, `?demo#/${address}`);
    await expect(page.locator('h1').first(), address).toBeVisible();
    await expect(page.getByRole('alert'), address).toHaveCount(0);
    await expect(page, address).toHaveURL(`${site.url}?demo#/${address}`);
  }
  const lost = ['table', 'session/nobody', 'nowhere', 'day/yesterday'];
  for (const elsewhere of lost) {
    await openAt(page, site, `?demo#/${elsewhere}`);
    await expect(page.getByRole('heading', { name: /^Pour/ })).toBeVisible();
    await expect(page).toHaveURL(`${site.url}?demo#/pour`);
  }
  const all = addresses.length + lost.length;
  figure({
    drill: 'Every address by itself with no network',
    required: `${all}/${all} open, each by a fresh start; 0 errors, 0 requests elsewhere`,
    reached: `${all}/${all} open, ${heard.length} errors or requests elsewhere`,
    isMet: heard.length === 0,
  });
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
  figure({
    drill: 'The browser would install it',
    required: 'no fault of the manifest, nothing in the way, its own folder as its name',
    reached: `${manifest.errors.length} faults, ${installabilityErrors.length - 1} in the way, ${appId === site.url ? 'its own folder' : appId}`,
    isMet: manifest.errors.length === 0 && installabilityErrors.length === 1 && appId === site.url,
  });
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
  const found = await version();
  figure({
    drill: 'An older app meets a newer logbook',
    required: 'left as it is, and said',
    reached: `version ${found.join()}, said`,
    isMet: found.join() === '99',
  });
  expect(found).toEqual([99]);
});

for (const folder of ['', 'a/b/']) {
  const place = folder === '' ? 'at its root' : 'in a folder below';
  test(`on a plain host, ${place}, a new browser opens it and pours with no network`, async () => {
    test.setTimeout(120_000);
    const home = mkdtempSync(join(tmpdir(), 'warmshot-plain-'));
    cpSync(join(import.meta.dirname, '../../dist'), join(home, 'host', folder), {
      recursive: true,
    });
    // Python's own host: no special heads, no rules of rewriting.
    const serving = [
      '-u',
      '-m',
      'http.server',
      '0',
      '--bind',
      '127.0.0.1',
      '-d',
      join(home, 'host'),
    ];
    const host = spawn('python3', serving, { stdio: ['ignore', 'pipe', 'ignore'] });
    const [line] = await once(createInterface(host.stdout), 'line');
    const url = `http://localhost:${/port (\d+)/.exec(String(line))?.[1]}/${folder}`;
    const openBrowser = async () => {
      const context = await chromium.launchPersistentContext(join(home, 'profile'), {
        executablePath: chromiumPath,
        args: quietArgs,
        viewport: { width: 360, height: 740 },
      });
      return { context, page: context.pages()[0] ?? (await context.newPage()) };
    };
    const first = await openBrowser();
    await first.page.goto(url);
    await stored(first.page);
    await first.context.close();
    host.kill();
    await once(host, 'exit');

    const { context, page } = await openBrowser();
    const begun = Date.now();
    await page.goto(url);
    await expect(page.getByRole('button', { name: 'Log a pour now' })).toBeVisible();
    const ms = Date.now() - begun;
    await firstSession(page);
    await theMainKey(page).click();
    await expect(page.getByRole('button', { name: /^Undo/ })).toContainText('Filled');
    const entries = await keysOf(page, 'entries');
    await context.close();
    rmSync(home, { recursive: true, force: true });
    figure({
      drill: 'Cold start with no network, plain host, at its root and in a folder below',
      required: 'a new browser opens it and a shot is stored',
      reached: `${place}: open after ${ms} ms, ${entries.length} lines stored`,
      isMet: entries.length === 4,
    });
    expect(entries).toHaveLength(4);
  });
}
