import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, type Page, test } from '@playwright/test';
import { backends, chromiumPath, quietArgs } from './backends.ts';
import { figure } from './figure.ts';
import { kill as killBrowser } from './processes.ts';

const shop = JSON.parse(
  readFileSync(join(import.meta.dirname, '../fixtures/shop-v1.json'), 'utf8'),
) as { tables: Record<string, { id?: string }[]> };

/** Stores the shop of the first release, with many lines more in its running session. */
async function storeFirstRelease(page: Page): Promise<void> {
  await page.evaluate(
    (tables) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('warmshot', 1);
        opening.onupgradeneeded = () => {
          const keys = {
            entries: ['sessionId', 'stamp', 'id'],
            columns: ['startedAt', 'sessionId'],
          };
          const paths = { drafts: 'sessionId', meta: 'name', ...keys } as Record<
            string,
            string | string[]
          >;
          for (const name of ['moulds', 'injectors', 'colourways', 'settings', 'sealed']) {
            opening.result.createObjectStore(name, { keyPath: 'id' });
          }
          for (const [name, keyPath] of Object.entries(paths)) {
            opening.result.createObjectStore(name, { keyPath });
          }
        };
        opening.onsuccess = () => {
          const db = opening.result;
          const tx = db.transaction(Object.keys(tables), 'readwrite');
          for (const [name, records] of Object.entries(tables)) {
            for (const record of records) tx.objectStore(name).put(record);
          }
          const last = tables.entries?.at(-1);
          for (let number = 0; number < 20_000; number += 1) {
            const id = `0193a000-0000-7000-8000-${number.toString(16).padStart(12, '0')}`;
            const said = { kind: 'noted', text: `Line ${number}` };
            tx.objectStore('entries').put({ ...last, id, said });
          }
          tx.onabort = () => reject(tx.error);
          tx.oncomplete = () => {
            db.close();
            resolve();
          };
        };
      }),
    shop.tables,
  );
}

/** Version, count and checksum of everything the first release stored. */
async function fingerprint(page: Page): Promise<{ version: number; sum: string; lines: number }> {
  return await page.evaluate(
    async (tables) => {
      const db = await new Promise<IDBDatabase>((resolve) => {
        const opening = indexedDB.open('warmshot');
        opening.onsuccess = () => resolve(opening.result);
      });
      const all = await Promise.all(
        tables.map(
          (name) =>
            new Promise<unknown[]>((resolve) => {
              const asked = db.transaction(name).objectStore(name).getAll();
              asked.onsuccess = () => resolve(asked.result);
            }),
        ),
      );
      const text = new TextEncoder().encode(JSON.stringify(all));
      const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', text));
      const { version } = db;
      db.close();
      return { version, sum: hash.join('.'), lines: all[tables.indexOf('entries')]?.length ?? 0 };
    },
    Object.keys(shop.tables).filter((name) => name !== 'meta'),
  );
}

const kills = 10;

for (const [backend, flags] of Object.entries(backends)) {
  test(`an upgrade that is killed again and again half-way loses nothing and comes to its end, ${backend}`, async () => {
    test.setTimeout(240_000);
    const profile = mkdtempSync(join(tmpdir(), 'warmshot-climb-'));
    const openWindow = async () => {
      const context = await chromium.launchPersistentContext(profile, {
        executablePath: chromiumPath,
        args: [...quietArgs, ...flags],
        baseURL: test.info().project.use.baseURL ?? '',
      });
      return { context, page: context.pages()[0] ?? (await context.newPage()) };
    };
    const first = await openWindow();
    await first.page.goto('./manifest.webmanifest');
    await storeFirstRelease(first.page);
    const before = await fingerprint(first.page);
    await first.context.close();
    expect(before).toMatchObject({ version: 1, lines: 20_005 });

    for (let kill = 0; kill < kills; kill += 1) {
      const { page } = await openWindow();
      const opening = page.goto('./', { waitUntil: 'commit' }).catch(() => {});
      await new Promise((resolve) => setTimeout(resolve, 40 + ((kill * 173) % 400)));
      killBrowser(profile);
      await opening;
    }

    const last = await openWindow();
    await last.page.goto('./');
    await expect(last.page.locator('nav[aria-label="Log"]')).toBeVisible({ timeout: 60_000 });
    const after = await fingerprint(last.page);
    await last.context.close();
    rmSync(profile, { recursive: true, force: true });
    const isEqual = after.sum === before.sum && after.version > 1;
    figure({
      drill: `Upgrade from the first release, killed half-way, ${backend}`,
      required: '10 kills, 20,000 lines: checksum of all records equal',
      reached: `${kills} kills, ${after.lines} of ${before.lines} lines: checksum ${isEqual ? 'equal' : 'not equal'}`,
      isMet: isEqual,
    });
    expect(after.version).toBeGreaterThan(1);
    expect({ ...after, version: 1 }).toEqual(before);
  });
}
