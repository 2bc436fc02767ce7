import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, type Page, test } from '@playwright/test';
import { addMould, lineUp, openApp } from './hands.ts';

const wanted = 500;

/** How many entries of running sessions are on disk. */
async function entriesOnDisk(page: Page): Promise<number> {
  return await page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open('warmshot');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const count = opening.result.transaction('entries').objectStore('entries').count();
          count.onsuccess = () => {
            opening.result.close();
            resolve(count.result);
          };
        };
      }),
  );
}

/** Kills every process of the browser that uses this profile, as a phone does: at once. */
function kill(profile: string): void {
  try {
    execFileSync('pkill', ['-9', '-f', '--', `user-data-dir=${profile}`]);
  } catch {
    // No process left is what was wanted.
  }
}

test(`${wanted} and more ticks, the browser killed again and again: not one is lost`, async () => {
  test.setTimeout(480_000);
  const profile = mkdtempSync(join(tmpdir(), 'warmshot-kill-'));
  const args = ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage'];
  const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
  let acked = 0;
  let before = 0;
  let kills = 0;
  const openWindow = async () => {
    const context = await chromium.launchPersistentContext(profile, {
      executablePath,
      args,
      viewport: { width: 360, height: 740 },
      baseURL: test.info().project.use.baseURL ?? '',
    });
    const page = context.pages()[0] ?? (await context.newPage());
    // The buzz is the receipt: it comes after the transaction is done.
    await page.exposeFunction('ticked', () => {
      acked += 1;
    });
    await page.addInitScript(() => {
      Object.defineProperty(navigator, 'vibrate', {
        value: (pattern: number | number[]) => {
          if (typeof pattern === 'number') (window as unknown as { ticked(): void }).ticked();
          return true;
        },
      });
    });
    return { context, page };
  };

  const first = await openWindow();
  await openApp(first.page);
  for (const name of ['One', 'Two', 'Three']) await addMould(first.page, name, 2, 2);
  await lineUp(first.page, ['One', 'Two', 'Three']);
  before = await entriesOnDisk(first.page);
  await first.context.close();

  while (acked < wanted && kills < 90) {
    const { page } = await openWindow();
    await openApp(page);
    // Opening again lands on the table.
    await expect(page.locator('nav[aria-label="Log"]')).toBeVisible();
    expect(await entriesOnDisk(page)).toBeGreaterThanOrEqual(before + acked);
    const start = Date.now();
    const span = 1_500 + ((kills * 337) % 900);
    const keys = page.locator('article button');
    const pressing = (async () => {
      while (Date.now() - start < span) {
        const found = keys.filter({ hasText: /^(Log now|All good)$/ });
        const count = await found.count();
        for (let index = 0; index < count; index += 1) {
          await found
            .nth(index % count)
            .click({ timeout: 300, noWaitAfter: true })
            .catch(() => {});
        }
      }
    })().catch(() => {});
    await new Promise((resolve) => setTimeout(resolve, span - 150));
    kill(profile);
    await pressing;
    kills += 1;
  }

  const last = await openWindow();
  await openApp(last.page);
  await expect(last.page.locator('nav[aria-label="Log"]')).toBeVisible();
  const after = await entriesOnDisk(last.page);
  console.log(`kills ${kills}, ticks ${acked}, on disk ${after - before}`);
  expect(acked).toBeGreaterThanOrEqual(wanted);
  expect(after - before).toBeGreaterThanOrEqual(acked);
  // At most one press a kill was stored and not ticked yet.
  expect(after - before).toBeLessThanOrEqual(acked + kills);
  await last.context.close();
  rmSync(profile, { recursive: true, force: true });
});
