import { readFileSync } from 'node:fs';
import { expect, type Page } from '@playwright/test';
import { figure } from './figure.ts';
import { firstSession } from './hands.ts';
import { finish, openAt, test, theMainKey } from './site.ts';

/** What a newer version would make of the logbook: a higher shape, a table more, fields more. */
async function makeNewer(page: Page): Promise<void> {
  await page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('warmshot', 7);
        opening.onupgradeneeded = () => {
          const spools = opening.result.createObjectStore('spools', { keyPath: 'id' });
          for (let id = 0; id < 250; id += 1) spools.put({ id, metres: id / 8 });
          const bytes = new Uint8Array([1, 2, 3]).buffer;
          opening.transaction?.objectStore('photo-bytes').put({ id: 'p', bytes });
        };
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          opening.result.close();
          resolve();
        };
      }),
  );
}

/** SHA-256 over the version, every key and every record, and how many records there are by table. */
async function sumOf(page: Page): Promise<{ hash: string; counts: Record<string, number> }> {
  return await page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('warmshot');
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(opening.error);
    });
    const asked = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve) => {
        request.onsuccess = () => resolve(request.result);
      });
    const counts: Record<string, number> = {};
    let text = `${db.version} `;
    for (const name of db.objectStoreNames) {
      const store = db.transaction(name).objectStore(name);
      const [keys, records] = await Promise.all([asked(store.getAllKeys()), asked(store.getAll())]);
      counts[name] = keys.length;
      text += JSON.stringify([name, keys, records], (_, value: unknown) => {
        if (value instanceof ArrayBuffer) return [...new Uint8Array(value)];
        return ArrayBuffer.isView(value) ? [...(value as Uint8Array)] : value;
      });
    }
    db.close();
    const hash = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
    return { hash: [...new Uint8Array(hash)].join(' '), counts };
  });
}

test('a logbook of a newer version is written out as text, every record, and stays as it is', async ({
  page,
  site,
}) => {
  await page.goto(site.url);
  await firstSession(page);
  await theMainKey(page).click();
  await finish(page);
  await makeNewer(page);
  await openAt(page, site);
  await expect(page.getByRole('heading', { name: 'This logbook is newer' })).toBeVisible();
  const before = await sumOf(page);
  expect(before.counts).toMatchObject({ spools: 250, sealed: 1, moulds: 1 });
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save it as text' }).click();
  const download = await coming;
  expect(download.suggestedFilename()).toMatch(/^warmshot-\d{4}-\d\d-\d\d-newer[.]jsonl$/);
  const path = test.info().outputPath('newer.jsonl');
  await download.saveAs(path);
  await expect(page.getByRole('status')).toContainText('1 picture left out');
  const [head, ...lines] = readFileSync(path, 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));
  const end = lines.pop();
  expect(head).toMatchObject({ logbook: 'warmshot', shape: 7 });
  const counts: Record<string, number> = {};
  for (const { table } of lines) counts[table] = (counts[table] ?? 0) + 1;
  const wanted = Object.fromEntries(Object.entries(before.counts).filter(([, count]) => count > 0));
  expect(counts).toEqual(wanted);
  expect(end).toEqual({ end: lines.length, picturesLeftOut: 1 });
  const spools = lines.filter(({ table }) => table === 'spools').map(({ record }) => record);
  expect(spools).toEqual(Array.from({ length: 250 }, (_, id) => ({ id, metres: id / 8 })));
  const bytes = lines.find(({ table }) => table === 'photo-bytes');
  expect(bytes?.record).toEqual({ id: 'p', bytes: { bytesLeftOut: 3 } });
  const after = await sumOf(page);
  figure({
    drill: 'A newer logbook is written out as text by an older app',
    required: 'every record in the file; the database byte for byte as before',
    reached: `${lines.length} records in the file; ${after.hash === before.hash ? 'unchanged' : 'changed'}`,
    isMet: after.hash === before.hash,
  });
  expect(after).toEqual(before);
});
