import { execFileSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { expect, type Page } from '@playwright/test';
import { figure } from './figure.ts';
import { firstSession, pass, pressMain } from './hands.ts';
import { everyPage, withNameless } from './pages.ts';
import { finish, keysOf, openAt, type Site, stored, test } from './site.ts';

const places = [
  '',
  '#/moulds',
  '#/yields',
  '#/colours',
  '#/ideas',
  '#/shelf',
  '#/bait-cost',
  '#/workshop',
];

/** What a page shows, without what it says of copies: that is about this phone, not about the shop. */
async function wordsOf(page: Page): Promise<string> {
  const text = (await page.locator('main').textContent()) ?? '';
  return text
    .replace(/Works with no network[.]/, ' ')
    .replace(/None has left this phone yet[\s\S]*?shop[.]|Last copy: [\s\S]*?[.]/, '')
    .replace(/No copy has left this phone[.]|Last copy (?!:)[\s\S]*?tested[.]/, '')
    .replace(/Came in last, [\s\S]*?listed there[.]|Back from a file, or from another phone[.]/, '')
    .replace(/\d+ (?:session|photo|stock line|change)[\w, ]*only on this phone[.]Copy now/, '');
}

/** The words of a page once they are those, or once they have stood still for a second. */
async function settled(page: Page, those: string | undefined): Promise<string> {
  let words = '';
  for (let still = 0; still < 4; still += 1) {
    const now = await wordsOf(page);
    if (now === those) return now;
    if (now !== words || now === '' || now.includes('being looked at')) still = 0;
    words = now;
    await page.waitForTimeout(250);
  }
  return words;
}

/** Every word and figure that the places of the shop show, and those of each of its moulds and sessions. */
async function figures(
  page: Page,
  site: Site,
  before: Record<string, string> = {},
): Promise<Record<string, string>> {
  const seen: Record<string, string> = {};
  const moulds = await keysOf(page, 'moulds');
  const sessions = await keysOf(page, 'sealed');
  const addresses = [
    ...places,
    ...moulds.map((id) => `#/mould/${id}`),
    ...sessions.map((id) => `#/session/${id}`),
  ];
  for (const address of addresses) {
    await openAt(page, site, address);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    seen[address] = await settled(page, before[address]);
  }
  return seen;
}

/** A session of three rounds. */
async function pourSome(page: Page): Promise<void> {
  await firstSession(page);
  for (let round = 0; round < 3; round += 1) {
    await pressMain(page, /^Filled/);
    await pass(page, 4 * 60_000);
    await pressMain(page, /^All good/);
  }
  await finish(page);
}

/** All storage of this origin goes, as by "clear site data". */
async function clearSite(page: Page, site: Site): Promise<void> {
  await page.goto('about:blank');
  const session = await page.context().newCDPSession(page);
  await session.send('Storage.clearDataForOrigin', {
    origin: new URL(site.url).origin,
    storageTypes: 'all',
  });
  await session.detach();
}

for (const isLocked of [false, true]) {
  test(`checklist 33: a copy${isLocked ? ' locked by six words' : ''}, the site cleared, the file opened: every figure is there again`, async ({
    page,
    site,
    heard,
  }) => {
    test.setTimeout(180_000);
    await page.clock.install({ time: new Date('2026-11-24T18:00:00Z') });
    await page.goto(site.url);
    await stored(page);
    await pourSome(page);
    await openAt(page, site, '#/mould-facts/new');
    await page.getByLabel('Name').fill('Craw 40');
    await page.getByRole('button', { name: 'Add this mould' }).click();
    await expect(page.getByRole('heading', { level: 1, name: 'Craw 40' })).toBeVisible();
    const before = await figures(page, site);
    expect(Object.keys(before).length).toBe(places.length + 3);

    await openAt(page, site, '#/keep');
    if (isLocked) await page.getByRole('button', { name: 'Six words' }).click();
    const drawn = page.getByText(/^[a-z]+( [a-z]+){5}$/);
    const words = isLocked ? ((await drawn.textContent()) ?? '') : '';
    await page.getByRole('button', { name: 'Make the copy' }).click();
    await expect(page.getByRole('heading', { name: 'The copy is good' })).toBeVisible();
    const coming = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save it' }).click();
    await page.getByRole('button', { name: 'It is there' }).click();
    const download = await coming;
    expect(download.suggestedFilename()).toBe('warmshot-2026-11-24.warmshot');
    const path = test.info().outputPath('shop.warmshot');
    await download.saveAs(path);
    await expect(page.getByText('Last copy: today')).toBeVisible();
    const told = execFileSync(process.execPath, ['demo/read-backup.mjs', path, words], {
      encoding: 'utf8',
    });
    expect(told).toContain('"sealed":1');
    expect(readFileSync(path).includes('Craw 40')).toBe(false);

    await clearSite(page, site);
    await page.goto(site.url);
    await page.getByRole('link', { name: 'Open a copy' }).click();
    await page.getByLabel('The file').setInputFiles(path);
    if (isLocked) {
      await page.getByLabel('Its words').fill(words);
      await page.getByRole('button', { name: 'Unlock' }).click();
    }
    await expect(page.getByText(/^Brings 1 session/)).toBeVisible();
    await page.getByRole('button', { name: 'Bring it in' }).click();
    await expect(page.getByRole('heading', { name: 'It is in' })).toBeVisible();
    const after = await figures(page, site, before);
    const equal = Object.keys(before).filter(
      (address) => after[address] === before[address],
    ).length;
    figure({
      drill: 'A copy file, the site cleared, the file opened',
      required: 'every word and figure of every page is there again',
      reached: `${isLocked ? 'locked' : 'open'}: ${equal} of ${Object.keys(before).length} pages`,
      isMet: equal === Object.keys(before).length,
    });
    expect(after).toEqual(before);
    rmSync(path);
    expect(heard).toEqual([]);
  });
}

/** Pages that say something of this phone, its storage or its copies, and not of the shop. */
const aboutThePhone = ['workshop', 'keep', 'open-copy', 'tables'];

test('a full shop as a file: a clean phone shows every page as the first one did', async ({
  page,
  site,
  heard,
}) => {
  test.setTimeout(480_000);
  await page.clock.install({ time: new Date('2026-11-27T18:00:00Z') });
  await page.goto(`${site.url}?demo#/moulds`);
  await expect(page.getByText('Grub 50').first()).toBeVisible();
  await withNameless(page, 'warmshot-demo');
  const pages = (await everyPage(page, 'warmshot-demo')).filter(
    (address) => !aboutThePhone.includes(address),
  );
  const before: Record<string, string> = {};
  for (const address of pages) {
    // The same document: only the address changes.
    await page.goto(`${site.url}?demo#/${address}`);
    await expect(page.locator('h1').first(), address).toBeVisible();
    before[address] = await settled(page, undefined);
  }
  await openAt(page, site, '?demo#/keep');
  await page.getByRole('button', { name: 'Make the copy' }).click();
  await expect(page.getByRole('heading', { name: 'The copy is good' })).toBeVisible({
    timeout: 60_000,
  });
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save it' }).click();
  await page.getByRole('button', { name: 'It is there' }).click();
  const path = test.info().outputPath('full.warmshot');
  await (await coming).saveAs(path);

  await openAt(page, site, '#/open-copy');
  await page.getByLabel('The file').setInputFiles(path);
  await expect(page.getByText(/^Brings \d+ sessions/)).toBeVisible({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Bring it in' }).click();
  await expect(page.getByRole('heading', { name: 'It is in' })).toBeVisible({ timeout: 60_000 });
  const after: Record<string, string> = {};
  for (const address of pages) {
    await page.goto(`${site.url}#/${address}`);
    await expect(page.locator('h1').first(), address).toBeVisible();
    after[address] = await settled(page, before[address]);
  }
  const equal = pages.filter((address) => after[address] === before[address]).length;
  figure({
    drill: 'A full shop as a file, opened on a clean phone',
    required: `${pages.length}/${pages.length} pages: every word and figure as before`,
    reached: `${equal}/${pages.length} pages`,
    isMet: equal === pages.length,
  });
  expect(after).toEqual(before);
  rmSync(path);
  expect(heard).toEqual([]);
});
