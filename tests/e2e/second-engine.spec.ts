import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from '@playwright/test';
import puppeteer, { type ElementHandle, type Page } from 'puppeteer-core';
import { figure } from './figure.ts';
import { publishStore, type Store } from './own-store.ts';
import { kill } from './processes.ts';
import { type Site, test } from './site.ts';

// The system's Firefox, by the WebDriver BiDi standard: another engine with another database. It
// takes its time to start on a busy machine.
const firefoxPath = process.env.FIREFOX ?? '/usr/bin/firefox-esr';
const patient = 60_000;
const share = 40;
const kills = 3;

async function openFirefox(profile: string, downloads: string) {
  const browser = await puppeteer.launch({
    browser: 'firefox',
    executablePath: firefoxPath,
    headless: true,
    userDataDir: profile,
    extraPrefsFirefox: {
      'browser.download.dir': downloads,
      'browser.download.folderList': 2,
      'browser.download.useDownloadDir': true,
      // So that the folder above is taken, whatever is running on the machine.
      'browser.download.start_downloads_in_tmp_dir': false,
    },
    timeout: patient,
    protocolTimeout: patient,
    defaultViewport: { width: 360, height: 740 },
  });
  const page = (await browser.pages())[0] ?? (await browser.newPage());
  page.setDefaultTimeout(patient);
  return { browser, page };
}

/**
 * Presses what this selector finds. Whether it is enabled is not asked: puppeteer asks by a function made of
 * text, which the content policy of the page forbids, from Firefox 140.12 on also to it. Our keys always are.
 */
async function pressAt(page: Page, selector: string): Promise<void> {
  await page.locator(selector).setWaitForEnabled(false).click();
}

/** Presses the key of this name, as `aria-label` or text says it. */
const press = (page: Page, name: string) =>
  pressAt(page, `::-p-aria([name="${name}"][role="button"])`);

const table = (page: Page) => page.waitForSelector('nav[aria-label="Log"]');

/** Three presses from the first screen of an empty shop to the table. */
async function firstSession(page: Page): Promise<void> {
  await press(page, 'Log a pour now');
  await pressAt(page, '::-p-xpath(//button[starts-with(normalize-space(), "2 × 4")])');
  await pressAt(page, '::-p-xpath(//button[starts-with(normalize-space(), "Start pouring")])');
  await table(page);
}

/** Ids of the noted lines on disk, and how many are no whole records. */
async function onDisk(page: Page, storeUrl: string): Promise<{ ids: string[]; broken: number }> {
  return await page.evaluate(async (url) => {
    const { openBook, fits } = (await import(url)) as Store;
    const { db } = await openBook('warmshot');
    const entries = await db.getAll('entries');
    db.close();
    return {
      ids: entries.filter(({ said }) => said.kind === 'noted').map(({ id }) => `${id}`),
      broken: entries.filter((entry) => !fits('entries', entry)).length,
    };
  }, storeUrl);
}

/** Saves through the app's own store until the window dies. */
async function saveOn(page: Page, storeUrl: string): Promise<void> {
  await page.evaluate(async (url) => {
    const { openBook, runningEntries, logEntry } = (await import(url)) as Store;
    const book = await openBook('warmshot');
    const session = (await runningEntries(book))?.[0]?.sessionId;
    if (!session) throw new Error('No session runs.');
    const answer = Reflect.get(window, 'saved') as (id: string) => Promise<void>;
    for (let line = 1; ; line += 1) {
      const said = { kind: 'noted', text: `Line ${line}` } as const;
      const { id } = await logEntry(book, session, said, Date.now() as never);
      await answer(id);
    }
  }, storeUrl);
}

/** Kills the browser again and again while it saves; what was ticked and is not there. */
async function logAndKill(profile: string, downloads: string, site: Site) {
  const storeUrl = await publishStore(site);
  const saved = new Set<string>();
  const found = { lost: 0, broken: 0, extra: 0 };
  for (let run = 0; run <= kills; run += 1) {
    const { browser, page } = await openFirefox(profile, downloads);
    await page.goto(site.url);
    if (run === 0) {
      await page.evaluate(() => navigator.serviceWorker.ready.then(() => {}));
      await firstSession(page);
    }
    await table(page);
    const { ids, broken } = await onDisk(page, storeUrl);
    const lost = [...saved].filter((id) => !ids.includes(id)).length;
    found.lost += lost;
    found.broken += broken;
    found.extra = ids.length - saved.size + lost;
    if (run === kills) {
      await browser.close();
      break;
    }
    await page.exposeFunction('saved', (id: string) => {
      saved.add(id);
    });
    const enough = saved.size + share;
    const saving = saveOn(page, storeUrl).catch(() => {});
    await expect
      .poll(() => saved.size, { timeout: patient, intervals: [20] })
      .toBeGreaterThanOrEqual(enough);
    kill(profile);
    await saving;
    await browser.close().catch(() => {});
  }
  return { saved: saved.size, ...found };
}

/** Every record of the tables of the shop, as text. */
async function recordsOf(page: Page, storeUrl: string): Promise<string> {
  return await page.evaluate(async (url) => {
    const { openBook } = (await import(url)) as Store;
    const { db } = await openBook('warmshot');
    const tables = ['entries', 'moulds', 'settings', 'injectors', 'colourways', 'sealed'] as const;
    const all = await Promise.all(tables.map((table) => db.getAll(table)));
    db.close();
    return JSON.stringify(all);
  }, storeUrl);
}

/** Makes a copy file, saves it as a download and opens it in a fresh profile; whether all is equal. */
async function copyOver(profile: string, downloads: string, site: Site): Promise<boolean> {
  const storeUrl = await publishStore(site);
  const first = await openFirefox(profile, downloads);
  await first.page.goto(site.url);
  await table(first.page);
  await first.page.evaluate(() => location.assign('#/keep'));
  await press(first.page, 'Make the copy');
  await press(first.page, 'Save it');
  const files = () =>
    readdirSync(downloads).filter((name) => /^warmshot-.*[.]warmshot$/.test(name));
  await expect.poll(() => files().length, { timeout: patient }).toBe(1);
  await press(first.page, 'It is there');
  // The page is asked itself: a search by text remembers what a text was before it changed.
  const text = () => first.page.evaluate(() => document.body.textContent);
  await expect.poll(text, { timeout: patient }).toContain('Last copy: today');
  const before = await recordsOf(first.page, storeUrl);
  await first.browser.close();

  const fresh = mkdtempSync(join(tmpdir(), 'warmshot-firefox-'));
  const { browser, page } = await openFirefox(fresh, downloads);
  await page.goto(site.url);
  await pressAt(page, '::-p-aria([name="Open a copy"][role="link"])');
  const input = await page.waitForSelector('input[type="file"]');
  await (input as ElementHandle<HTMLInputElement>).uploadFile(join(downloads, files()[0] ?? ''));
  await press(page, 'Bring it in');
  await page.waitForSelector('::-p-text(It is in)');
  const after = await recordsOf(page, storeUrl);
  await browser.close();
  rmSync(fresh, { recursive: true, force: true });
  return after === before;
}

/** Opens the app in a new process with no host; whether the table comes and takes a press. */
async function startsOffline(profile: string, downloads: string, site: Site): Promise<boolean> {
  await site.stop();
  const { browser, page } = await openFirefox(profile, downloads);
  await page.goto(site.url);
  const log = await table(page);
  const key = (await log?.$$('button'))?.at(-1);
  await key?.click();
  const isLogged = () =>
    page.evaluate(() =>
      [...document.querySelectorAll('button')].some((button) =>
        /^Undo.*Filled/s.test(`${button.ariaLabel ?? ''} ${button.textContent}`.trim()),
      ),
    );
  await expect.poll(isLogged, { timeout: patient }).toBe(true);
  await browser.close();
  return true;
}

test('another engine: no tick is lost by kills, a copy goes over, and the app opens with no network', async ({
  site,
}) => {
  test.setTimeout(420_000);
  expect(existsSync(firefoxPath), 'Firefox is there').toBe(true);
  const profile = mkdtempSync(join(tmpdir(), 'warmshot-firefox-'));
  const downloads = mkdtempSync(join(tmpdir(), 'warmshot-downloads-'));
  const { saved, lost, broken, extra } = await logAndKill(profile, downloads, site);
  figure({
    drill: 'Second engine (Firefox): killed while it logs',
    required: `${kills} kills; of ${share * kills} saves ticked 0 lost, 0 half; ≤ 1 unticked a kill`,
    reached: `${kills} kills; of ${saved} saves ticked ${lost} lost, ${broken} half; ${extra} unticked in all`,
    isMet: saved >= share * kills && lost === 0 && broken === 0 && extra <= kills,
  });
  const isEqual = await copyOver(profile, downloads, site);
  figure({
    drill: 'Second engine (Firefox): a copy file goes over',
    required: 'every record equal in a fresh profile',
    reached: isEqual ? 'equal' : 'not equal',
    isMet: isEqual,
  });
  const doesStart = await startsOffline(profile, downloads, site);
  figure({
    drill: 'Second engine (Firefox): starts with no network',
    required: 'a new process comes to the table and takes a press',
    reached: doesStart ? 'it does' : 'it does not',
    isMet: doesStart,
  });
  for (const folder of [profile, downloads]) rmSync(folder, { recursive: true, force: true });
  expect({ lost, broken, isEqual, doesStart }).toEqual({
    lost: 0,
    broken: 0,
    isEqual: true,
    doesStart: true,
  });
});
