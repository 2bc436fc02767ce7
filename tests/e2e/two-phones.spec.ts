import { type Browser, expect, type Page } from '@playwright/test';
import { figure } from './figure.ts';
import { firstSession, lineUp, openApp, pass, pressMain } from './hands.ts';
import { finish, test } from './site.ts';

/** Every table that goes over in a file, and the digests that are rebuilt from it. */
const tables = [
  'settings',
  'moulds',
  'injectors',
  'colourways',
  'materials',
  'mixes',
  'photos',
  'photo-bytes',
  'remarks',
  'ideas',
  'changes',
  'movements',
  'sealed',
  'entries',
  'columns',
];

/** Every record of a phone by its table and key, fields in one order. */
async function recordsOf(page: Page): Promise<Record<string, string>> {
  return await page.evaluate(async (names) => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('warmshot');
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(opening.error);
    });
    const asked = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const textOf = (value: unknown) =>
      JSON.stringify(value, (_, part: unknown) => {
        if (ArrayBuffer.isView(part)) return [...(part as Uint8Array)];
        if (part instanceof ArrayBuffer) return [...new Uint8Array(part)];
        if (!part || typeof part !== 'object' || Array.isArray(part)) return part;
        return Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)));
      });
    const found: Record<string, string> = {};
    for (const name of names) {
      const store = db.transaction(name).objectStore(name);
      const [keys, records] = await Promise.all([asked(store.getAllKeys()), asked(store.getAll())]);
      for (const [index, key] of keys.entries()) found[`${name} ${key}`] = textOf(records[index]);
    }
    db.close();
    return found;
  }, tables);
}

/** One phone with a clock of its own. */
async function aPhone(browser: Browser, time: string, heard: string[]): Promise<Page> {
  const context = await browser.newContext();
  context.on('weberror', (problem) => heard.push(String(problem.error())));
  const page = await context.newPage();
  await page.clock.install({ time: new Date(time) });
  await openApp(page);
  return page;
}

/** Two rounds on what lies on the table, then the end. */
async function pour(page: Page): Promise<void> {
  for (let round = 0; round < 2; round += 1) {
    await pressMain(page, /^Filled/);
    await pass(page, 4 * 60_000);
    await pressMain(page, /^All good/);
  }
  await finish(page);
}

/** Takes a copy out of a phone; where it lies. */
async function copyOut(page: Page, name: string): Promise<string> {
  await page.goto('./#/keep');
  await page.getByRole('button', { name: 'Make the copy' }).click();
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save it' }).click();
  const path = test.info().outputPath(name);
  await (await coming).saveAs(path);
  await page.getByRole('button', { name: 'It is there' }).click();
  await expect(page.getByText(/^Handed over/)).toBeVisible();
  return path;
}

/** Opens a copy on a phone up to what it would bring. */
async function look(page: Page, path: string): Promise<void> {
  // Another page first: the one that is open may still show the last file.
  await page.goto('./#/workshop');
  await page.getByRole('link', { name: 'Open a copy' }).click();
  await page.getByLabel('The file').setInputFiles(path);
  await expect(page.getByRole('heading', { name: 'This file' })).toBeVisible();
}

async function bringIn(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Bring it in' }).click();
  await expect(page.getByRole('heading', { name: 'It is in' })).toBeVisible();
}

/** Changes the one mould both phones know. */
async function changeMould(page: Page, id: string, change: () => Promise<void>): Promise<void> {
  await page.goto(`./#/mould-facts/${id}`);
  await expect(page.getByLabel('Name', { exact: true })).toHaveValue('Mould 1');
  await change();
  await page.getByRole('button', { name: 'Save the changes' }).click();
  await expect(page.getByRole('button', { name: 'Save the changes' })).toHaveCount(0);
}

test('two phones log and change the same shop, exchange their files, and both hold all of it once', async ({
  browser,
}) => {
  test.setTimeout(240_000);
  const heard: string[] = [];
  const first = await aPhone(browser, '2026-11-24T18:00:00Z', heard);
  await firstSession(first);
  await pour(first);
  const second = await aPhone(browser, '2026-11-25T08:00:00Z', heard);
  await look(second, await copyOut(first, 'start.warmshot'));
  await bringIn(second);
  const start = await recordsOf(first);
  expect(await recordsOf(second)).toEqual(start);

  // Each goes on alone: a session, and another fact of the same mould.
  const [mould = ''] = Object.keys(start).filter((key) => key.startsWith('moulds '));
  const id = mould.slice('moulds '.length);
  await lineUp(first, ['Mould 1']);
  await pour(first);
  await changeMould(first, id, async () => {
    await first.getByLabel('Name', { exact: true }).fill('Grub 50');
  });
  await lineUp(second, ['Mould 1']);
  await pour(second);
  await changeMould(second, id, async () => {
    await second.getByRole('button', { name: 'Silicone' }).click();
  });
  const alone = [await recordsOf(first), await recordsOf(second)];
  expect(alone[0]).not.toEqual(alone[1]);

  const files = [await copyOut(first, 'first.warmshot'), await copyOut(second, 'second.warmshot')];
  await look(first, files[1] ?? '');
  await look(second, files[0] ?? '');
  // The list says what comes, event by event and fact by fact, before anything does.
  await second.getByText('Thing by thing').click();
  await second.getByText('Mould: Grub 50').click();
  await expect(second.getByText('Name: was Mould 1, now Grub 50')).toBeVisible();
  await second
    .getByText(/^Session: /)
    .first()
    .click();
  await expect(second.getByText(/All good/).first()).toBeVisible();
  await bringIn(first);
  await bringIn(second);
  const both = [await recordsOf(first), await recordsOf(second)];
  const keys = Object.keys(both[0] ?? {});
  const wanted = new Set(alone.flatMap((one) => Object.keys(one)));
  const isEqual = JSON.stringify(both[0]) === JSON.stringify(both[1]);
  const doubled = keys.length - wanted.size;
  const sealed = keys.filter((key) => key.startsWith('sealed ')).length;
  figure({
    drill: 'Two phones exchange their files',
    required: 'both hold the same records; 3 sessions, 0 lost, 0 doubled; the list is shown',
    reached: `${isEqual ? 'the same' : 'not the same'} ${keys.length} records; ${sealed} sessions, ${[...wanted].filter((key) => !keys.includes(key)).length} lost, ${Math.max(0, doubled)} doubled`,
    isMet: isEqual && sealed === 3 && doubled === 0,
  });
  expect(both[1]).toEqual(both[0]);
  expect(new Set(keys)).toEqual(wanted);
  expect(sealed).toBe(3);
  const merged = JSON.parse(both[0]?.[mould] ?? '{}');
  expect(merged).toMatchObject({ name: 'Grub 50', material: 'silicone' });

  // Opened once more, nothing of it is new; what came in can be read again.
  await look(first, files[1] ?? '');
  await expect(first.getByText('Nothing new: all of it is here already.')).toBeVisible();
  await first.getByText('What came in').click();
  await expect(first.getByText(/^Came in: 1 session/)).toBeVisible();
  expect(heard).toEqual([]);
});
