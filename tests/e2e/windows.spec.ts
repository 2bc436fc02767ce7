import { expect, type Page } from '@playwright/test';
import { figure } from './figure.ts';
import { firstSession, press, pressMain } from './hands.ts';
import { publishStore, type Store } from './own-store.ts';
import { keysOf, openAt, test, theMainKey } from './site.ts';

const elsewhere = { name: 'The table is open in another window.' };
const useHere = (page: Page) => page.getByRole('button', { name: 'Use it here' });

test('one window has the table; the other takes it over by one key, and no press is lost or doubled', async ({
  page,
  site,
  heard,
}) => {
  test.setTimeout(120_000);
  await page.goto(site.url);
  await firstSession(page);
  const before = (await keysOf(page, 'entries')).length;
  await pressMain(page, /^Filled/);
  const other = await page.context().newPage();
  await openAt(other, site);
  await expect(other.getByRole('heading', elsewhere)).toBeVisible();
  await expect(theMainKey(other)).toHaveCount(0);

  await useHere(other).click();
  await expect(page.getByRole('heading', elsewhere)).toBeVisible();
  await press(other, /^Open now/);
  await pressMain(other, /^All good/);
  await expect(other.getByText('8 good', { exact: true })).toBeVisible();

  // To and fro, a shot in each.
  let windows: [Page, Page] = [page, other];
  for (let turn = 0; turn < 2; turn += 1) {
    const [here, there] = windows;
    await useHere(here).click();
    await expect(there.getByRole('heading', elsewhere)).toBeVisible();
    await pressMain(here, /^Filled/);
    await press(here, /^Open now/);
    await pressMain(here, /^All good/);
    await expect(here.getByText(`${8 * (turn + 2)} good`, { exact: true })).toBeVisible();
    windows = [there, here];
  }
  expect((await keysOf(page, 'entries')).length).toBe(before + 3 * 3);
  expect(heard).toEqual([]);
});

test('a window that closes leaves the table to the one that waits, with its half-made marks', async ({
  page,
  site,
}) => {
  await page.goto(site.url);
  await firstSession(page);
  await pressMain(page, /^Filled/);
  await press(page, /^Open now/);
  await press(page, /^Cavity 3/);
  const other = await page.context().newPage();
  await openAt(other, site);
  await expect(other.getByRole('heading', elsewhere)).toBeVisible();
  await page.close();
  await expect(other.getByRole('button', { name: /^Cavity 3, Short/ })).toBeVisible();
});

test('two windows that press at the same moment log each round once', async ({ page, site }) => {
  await page.goto(site.url);
  await firstSession(page);
  const before = (await keysOf(page, 'entries')).length;
  const other = await page.context().newPage();
  await openAt(other, site);
  await useHere(other).click();
  // The first window may still be drawn as it was: both are pressed.
  await Promise.all([
    theMainKey(page)
      .click({ timeout: 1_000 })
      .catch(() => {}),
    theMainKey(other).click(),
  ]);
  await expect(other.getByRole('button', { name: /^Undo/ })).toContainText('Filled');
  expect((await keysOf(other, 'entries')).length).toBe(before + 1);
});

test('the session that ends in one window leaves the table of the other', async ({
  page,
  site,
}) => {
  await page.goto(site.url);
  await firstSession(page);
  await pressMain(page, /^Filled/);
  const other = await page.context().newPage();
  await openAt(other, site);
  await expect(other.getByRole('heading', elsewhere)).toBeVisible();
  await press(page, /^Table/);
  await press(page, /^Finish/);
  for (const window of [page, other]) {
    await expect(window.getByRole('heading', { level: 1, name: 'Pour' })).toBeVisible();
  }
  // Back leads past the table that is no more.
  await page.goBack();
  await expect(page).not.toHaveURL(/#\/table/);
});

test('two windows that save 200 lines each at once, and change one mould, overwrite nothing of each other', async ({
  page,
  site,
}) => {
  test.setTimeout(120_000);
  const lines = 200;
  const storeUrl = await publishStore(site);
  await page.goto(site.url);
  await firstSession(page);
  const other = await page.context().newPage();
  const windows = [page, other];
  for (const window of windows) await window.goto(`${site.url}manifest.webmanifest`);
  const save = (window: Page, name: string) =>
    window.evaluate(
      async ({ url, lines, name }) => {
        const { openBook, runningEntries, logEntry, headsOf, changeHead } = (await import(
          url
        )) as Store;
        const book = await openBook('warmshot');
        const session = (await runningEntries(book))?.[0]?.sessionId;
        const [mould] = await headsOf(book, 'moulds');
        if (!session || !mould) throw new Error('No session runs.');
        const at = () => Date.now() as never;
        for (let line = 1; line <= lines; line += 1) {
          await logEntry(book, session, { kind: 'noted', text: `${name} ${line}` }, at());
        }
        const change = name === 'here' ? { massG: 900 } : { setSec: 240 };
        await changeHead(book, 'moulds', mould.id, change, at());
        book.db.close();
      },
      { url: storeUrl, lines, name },
    );
  await Promise.all([save(page, 'here'), save(other, 'there')]);
  const found = await page.evaluate(async (url) => {
    const { openBook, runningEntries, headsOf } = (await import(url)) as Store;
    const book = await openBook('warmshot');
    const entries = (await runningEntries(book)) ?? [];
    const [mould] = await headsOf(book, 'moulds');
    const texts = entries.flatMap(({ said }) => (said.kind === 'noted' ? [said.text] : []));
    book.db.close();
    return { texts, massG: mould?.massG, setSec: mould?.setSec };
  }, storeUrl);
  const once = new Set(found.texts).size;
  const areBothKept = found.massG === 900 && found.setSec === 240;
  figure({
    drill: 'Two windows save into one session at once',
    required: `2 × ${lines} saves: 0 lost, 0 doubled; both changes of one mould kept`,
    reached: `${found.texts.length} stored, ${once} different; changes ${areBothKept ? 'both' : 'not both'} kept`,
    isMet: once === 2 * lines && found.texts.length === 2 * lines && areBothKept,
  });
  expect(found).toMatchObject({ massG: 900, setSec: 240 });
  expect([found.texts.length, once]).toEqual([2 * lines, 2 * lines]);
});
