import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, type Page } from '@playwright/test';
import { backends, chromiumPath, quietArgs } from './backends.ts';
import { figure } from './figure.ts';
import { addMould, lineUp } from './hands.ts';
import { publishStore, type Store } from './own-store.ts';
import { kill } from './processes.ts';
import { type Site, test } from './site.ts';

// A killed process loses what it had not handed to the system; what the system had not written
// yet stays. So this is the drill for crashes, and that for power cuts is in flush.spec.ts.

const kills = 20;
/** So many are ticked in each window before it is killed; every second window is tapped by hand. */
const share = { saved: 190, tapped: 10 };
const least = { saved: (share.saved * kills) / 2, tapped: (share.tapped * kills) / 2 };

const patient = { timeout: 60_000, intervals: [50] };

/** What the windows answered, kept outside the browser. */
interface Heard {
  saved: Set<string>;
  ticks: number;
}

/** Opens the browser on its profile; the table must be there without a press. */
async function openWindow(profile: string, flags: readonly string[], site: Site, heard: Heard) {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath,
    args: [...quietArgs, ...flags],
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    baseURL: site.url,
  });
  const page = context.pages()[0] ?? (await context.newPage());
  await page.exposeFunction('saved', (id: string) => {
    heard.saved.add(id);
  });
  // The buzz is the receipt: it comes after the transaction is done.
  await page.exposeFunction('ticked', () => {
    heard.ticks += 1;
  });
  await page.addInitScript(() => {
    const answer = Reflect.get(window, 'ticked') as () => void;
    Object.defineProperty(navigator, 'vibrate', {
      value: (pattern: number | number[]) => {
        if (typeof pattern === 'number') answer();
        return true;
      },
    });
  });
  await page.goto(site.url);
  return { context, page };
}

/** What is on disk: ids of the lines saved by the store, how many came by taps, and the broken. */
async function onDisk(page: Page, storeUrl: string) {
  return await page.evaluate(async (url) => {
    const { openBook, fits } = (await import(url)) as Store;
    const { db } = await openBook('warmshot');
    const entries = await db.getAll('entries');
    db.close();
    const saved = entries.filter(({ said }) => said.kind === 'noted').map(({ id }) => `${id}`);
    const broken = entries.filter((entry) => !fits('entries', entry)).length;
    return { saved, tapped: entries.length - saved.length, broken };
  }, storeUrl);
}

/** Saves through the app's own store for as long as the window lives, one after the other. */
async function saveOn(page: Page, site: Site, storeUrl: string): Promise<void> {
  // A page of its own: a table that is drawn anew after each line has room for few of them.
  await page.goto(`${site.url}manifest.webmanifest`);
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

/** Taps every key that logs, one after the other, for as long as the window lives. */
async function tapOn(page: Page): Promise<void> {
  const keys = page.locator('article button').filter({ hasText: /^(Log now|All good)$/ });
  while (!page.isClosed()) {
    const count = await keys.count();
    for (let index = 0; index < count; index += 1) {
      await keys
        .nth(index)
        .tap({ timeout: 300 })
        .catch(() => {});
    }
  }
}

for (const [backend, flags] of Object.entries(backends)) {
  test(`${kills} kills while it logs, ${backend}: nothing that was ticked is lost`, async ({
    site,
  }) => {
    test.setTimeout(420_000);
    const storeUrl = await publishStore(site);
    const profile = mkdtempSync(join(tmpdir(), 'warmshot-kill-'));
    const heard: Heard = { saved: new Set(), ticks: 0 };
    const first = await openWindow(profile, flags, site, heard);
    for (const name of ['One', 'Two', 'Three']) await addMould(first.page, name, 2, 2);
    await lineUp(first.page, ['One', 'Two', 'Three']);
    const before = await onDisk(first.page, storeUrl);
    await first.context.close();
    heard.ticks = 0;

    const found = { lost: 0, broken: 0, extra: 0, restored: 0 };
    const begun = Date.now();
    for (let run = 0; run <= kills; run += 1) {
      const { context, page } = await openWindow(profile, flags, site, heard);
      await expect(page.locator('nav[aria-label="Log"]')).toBeVisible({ timeout: 30_000 });
      found.restored += 1;
      const disk = await onDisk(page, storeUrl);
      const there = new Set(disk.saved);
      const tapped = disk.tapped - before.tapped;
      const lost = [...heard.saved].filter((id) => !there.has(id)).length;
      found.lost += lost + Math.max(0, heard.ticks - tapped);
      found.extra = there.size - heard.saved.size + lost + Math.max(0, tapped - heard.ticks);
      found.broken += disk.broken;
      if (run === kills) {
        await context.close();
        break;
      }
      const isByHand = run % 2 === 0;
      const enough = {
        saved: heard.saved.size + (isByHand ? 0 : share.saved),
        ticks: heard.ticks + (isByHand ? share.tapped : 0),
      };
      const logging = (isByHand ? tapOn(page) : saveOn(page, site, storeUrl)).catch(() => {});
      await expect
        .poll(() => heard.saved.size >= enough.saved && heard.ticks >= enough.ticks, patient)
        .toBe(true);
      // At any moment of what it does.
      await new Promise((resolve) => setTimeout(resolve, (run * 337) % 400));
      kill(profile);
      await logging;
      await context.close().catch(() => {});
    }
    rmSync(profile, { recursive: true, force: true });

    console.log(`${backend}: ${Math.round((Date.now() - begun) / 1_000)} s`);
    const isEnough = heard.saved.size >= least.saved && heard.ticks >= least.tapped;
    figure({
      drill: `Killed while it logs, ${backend}`,
      required: `${kills} kills; of ${least.saved} saves and ${least.tapped} taps ticked 0 lost, 0 half; ≤ 1 unticked a kill; table back`,
      reached: `${kills} kills; of ${heard.saved.size} saves and ${heard.ticks} taps ticked ${found.lost} lost, ${found.broken} half; ${found.extra} unticked in all; table back ${found.restored - 1}/${kills}`,
      isMet: isEnough && found.lost === 0 && found.broken === 0 && found.extra <= kills,
    });
    expect(found).toMatchObject({ lost: 0, broken: 0 });
    expect(found.extra).toBeLessThanOrEqual(kills);
    expect(heard.saved.size).toBeGreaterThanOrEqual(least.saved);
    expect(heard.ticks).toBeGreaterThanOrEqual(least.tapped);
  });
}
