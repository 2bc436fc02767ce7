import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { type BrowserContext, test as base, expect, type Page } from '@playwright/test';

const home = join(import.meta.dirname, '../..');

/** The built app on a static host of its own, in a folder of that host. */
export interface Site {
  url: string;
  /** What the host serves; a test may put files beside the app. */
  folder: string;
  /** Puts another build in the place of the first. */
  publish(build: string): void;
  /** Takes the network away for good. */
  stop(): Promise<void>;
}

async function open(build: string): Promise<Site> {
  const folder = mkdtempSync(join(tmpdir(), 'warmshot-site-'));
  const publish = (next: string) => {
    rmSync(folder, { recursive: true, force: true });
    cpSync(next, folder, { recursive: true });
  };
  publish(build);
  const host = spawn(process.execPath, ['.ci/serve.mjs', '0', folder], {
    cwd: home,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const [url] = await once(createInterface(host.stdout), 'line');
  return {
    url: String(url),
    folder,
    publish,
    async stop() {
      if (host.exitCode !== null || host.signalCode !== null) return;
      host.kill();
      await once(host, 'exit');
    },
  };
}

/** Writes down what must never happen on a page: errors, broken policy, requests to other origins. */
function overhear(context: BrowserContext, origin: string, heard: string[]): void {
  context.on('console', (message) => {
    if (message.type() === 'error') heard.push(message.text());
  });
  context.on('weberror', (problem) => heard.push(String(problem.error())));
  context.on('request', (request) => {
    const url = new URL(request.url());
    if (/^https?:$/.test(url.protocol) && url.origin !== origin) heard.push(`asked ${url.href}`);
  });
}

/** Playwright's test with a host for the app and an ear on its pages. */
export const test = base.extend<{ site: Site; heard: string[] }>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads what a fixture needs off this pattern.
  site: async ({}, use) => {
    const site = await open(join(home, 'dist'));
    await use(site);
    await site.stop();
    rmSync(site.folder, { recursive: true, force: true });
  },
  heard: async ({ context, site }, use) => {
    const heard: string[] = [];
    overhear(context, new URL(site.url).origin, heard);
    await use(heard);
    expect(heard).toEqual([]);
  },
});

/** Waits until every file of the app is stored on the device. The page is not served by it yet. */
export async function stored(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
}

/** Opens an address of the app as a fresh page, as a bookmark or a killed app would. */
export async function openAt(page: Page, site: Site, hash = ''): Promise<void> {
  await page.goto('about:blank');
  await page.goto(site.url + hash);
}

/** The key of the pour table that means the next right thing. */
export function theMainKey(page: Page) {
  return page.getByRole('navigation', { name: 'Log' }).getByRole('button').last();
}

/** Ends the session from the table. */
export async function finish(page: Page): Promise<void> {
  const end = page.getByRole('button', { name: 'Finish' });
  // A press that comes while the page is loaded anew is lost: it is pressed again, as a hand does.
  await expect(async () => {
    if (!(await end.isVisible()))
      await page.getByRole('button', { name: 'Table', exact: true }).click({ timeout: 5_000 });
    await expect(end).toBeVisible({ timeout: 3_000 });
  }).toPass({ timeout: 30_000 });
  await end.click();
  await expect(page.getByRole('heading', { name: /^Pour/ })).toBeVisible();
}

/** The keys of a table of the logbook. */
export async function keysOf(page: Page, table: string): Promise<string[]> {
  return await page.evaluate(
    (name) =>
      new Promise<string[]>((resolve, reject) => {
        const opening = indexedDB.open('warmshot');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const db = opening.result;
          const asked = db.transaction(name).objectStore(name).getAllKeys();
          asked.onsuccess = () => {
            db.close();
            resolve(asked.result.map(String));
          };
          asked.onerror = () => reject(asked.error);
        };
      }),
    table,
  );
}

/** The records of a table of the logbook, or of the demo shop's. */
export async function recordsOf<T>(page: Page, table: string, database = 'warmshot'): Promise<T[]> {
  return await page.evaluate(
    ([name, store]) =>
      new Promise<T[]>((resolve, reject) => {
        const opening = indexedDB.open(store);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const db = opening.result;
          const asked = db.transaction(name).objectStore(name).getAll();
          asked.onsuccess = () => {
            db.close();
            resolve(asked.result as T[]);
          };
          asked.onerror = () => reject(asked.error);
        };
      }),
    [table, database] as const,
  );
}
