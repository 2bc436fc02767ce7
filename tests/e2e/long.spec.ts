import { expect, type Page, test } from '@playwright/test';
import { figure } from './figure.ts';
import { addMould, lineUp, pass } from './hands.ts';
import { recordsOf } from './site.ts';

/** Rounds of three moulds poured by hand, and so many more that are put in the log before the last of them. */
const rounds = 200;
const more = { rounds: 467, after: 195 };
const wakes = 20;
const roundMs = 186_000;
/** Those put in come so much faster. */
const fastMs = roundMs / 5;

type Watched = Window & {
  kept: { asked: number; lock: EventTarget | null };
  alarms: { open: number };
};

/** What the page holds after a collection. */
interface Look {
  bytes: number;
  nodes: number;
  listeners: number;
}

/** Keeps the wake lock that was granted last, so that it can be taken away as a phone does. */
async function withWakeLock(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const kept = { asked: 0, lock: null as EventTarget | null };
    const request = async () => {
      kept.asked += 1;
      const lock = new EventTarget();
      kept.lock = Object.assign(lock, { released: false, release: async () => {} });
      return lock;
    };
    Object.defineProperty(navigator, 'wakeLock', { value: { request } });
    Object.assign(window, { kept });
  });
}

/**
 * Presses the main key once it says what it should, by clicks that have a time of their own, until it
 * says something else: a label that has only just changed still has its earlier meaning.
 */
async function pressAt(page: Page, says: string, atMs: number): Promise<void> {
  await pass(page, 400);
  await page.evaluate(
    async ([words, at]) => {
      const main = () => [...document.querySelectorAll('nav[aria-label="Log"] > button')].at(-1);
      const label = () => main()?.getAttribute('aria-label') ?? '';
      const until = async (isSo: () => boolean, turns: number) => {
        for (let turn = 0; turn < turns && !isSo(); turn += 1) {
          await new Promise((resolve) => setTimeout(resolve, 10));
        }
      };
      await until(() => label().startsWith(words), 2_000);
      for (let press = 0; press < 8 && label().startsWith(words); press += 1) {
        const event = new MouseEvent('click', { bubbles: true });
        Object.defineProperty(event, 'timeStamp', { value: at + 500 * press });
        main()?.dispatchEvent(event);
        await until(() => !label().startsWith(words), 250);
      }
    },
    [says, atMs] as const,
  );
}

/** Writes the last round of the session again and again, each with ids and times of its own. */
async function repeatLastRound(page: Page, times: number): Promise<void> {
  await page.evaluate(
    async ([most, spanMs]) => {
      const db = await new Promise<IDBDatabase>((resolve) => {
        const opening = indexedDB.open('warmshot');
        opening.onsuccess = () => resolve(opening.result);
      });
      const tx = db.transaction('entries', 'readwrite');
      const asked = tx.objectStore('entries').getAll();
      asked.onsuccess = () => {
        const round = asked.result
          .filter(({ said }) => /^(filled|opened)$/.test(said.kind))
          .slice(-2);
        for (let number = 1; number <= most; number += 1) {
          const tail = number.toString(16).padStart(4, '0');
          const own = (id: string) => `${id.slice(0, -4)}${tail}`;
          for (const { id, at, stamp, said, ...entry } of round) {
            const later = at + number * spanMs;
            const shots = said.shots.map((shot: { shotId: string }) => ({
              ...shot,
              shotId: own(shot.shotId),
            }));
            tx.objectStore('entries').put({
              ...entry,
              id: own(id),
              at: later,
              writtenAt: later,
              stamp: `${later.toString(16).padStart(12, '0')}${stamp.slice(12)}`,
              said: { ...said, shots },
            });
          }
        }
      };
      await new Promise<void>((resolve) => {
        tx.oncomplete = () => resolve();
      });
      db.close();
    },
    [times, fastMs] as const,
  );
}

/** Counts every "open" that is told from now on, also after the page was loaded anew. */
async function watchAlarms(page: Page): Promise<void> {
  await page.evaluate(() => {
    const alarms = { open: 0 };
    Object.assign(window, { alarms });
    const status = document.querySelector('p.said[role="status"]');
    if (!status) throw new Error('Nothing is told.');
    new MutationObserver(() => {
      alarms.open += (status.textContent ?? '').match(/\bopen\b/g)?.length ?? 0;
    }).observe(status, { childList: true, characterData: true, subtree: true });
  });
}

/** What was counted since the page was loaded. */
async function counted(page: Page): Promise<{ alarms: number; asked: number }> {
  return await page.evaluate(() => {
    const { alarms, kept } = window as unknown as Watched;
    return { alarms: alarms.open, asked: kept.asked };
  });
}

test('an evening of eight hours: no leak, and every mould is told as open once', async ({
  page,
}) => {
  test.setTimeout(600_000);
  await withWakeLock(page);
  await page.clock.install({ time: new Date('2026-11-24T12:00:00Z') });
  for (const name of ['Grub', 'Shad', 'Worm']) await addMould(page, name, 2, 2);
  await lineUp(page, ['Grub', 'Shad', 'Worm']);
  await watchAlarms(page);
  const device = await page.context().newCDPSession(page);
  const look = async (): Promise<Look> => {
    await device.send('HeapProfiler.collectGarbage');
    await device.send('HeapProfiler.collectGarbage');
    const { usedSize } = await device.send('Runtime.getHeapUsage');
    const { nodes, jsEventListeners } = await device.send('Memory.getDOMCounters');
    return { bytes: usedSize, nodes, listeners: jsEventListeners };
  };
  // What a drawing under way, or a look at the page, still holds is no leak: of three rounds the least counts.
  const first = [20, 22, 24];
  const last = [more.after - 4, more.after - 2, more.after];
  const least = (some: readonly Look[]) => some.toSorted((a, b) => a.nodes - b.nodes)[0] as Look;
  const measure = async () => {
    const looks = [await look()];
    for (let again = 0; again < 2; again += 1) {
      await page.waitForTimeout(250);
      looks.push(await look());
    }
    return least(looks);
  };

  const evening = page.getByRole('region', { name: 'This evening' });
  const early: Look[] = [];
  const late: Look[] = [];
  const found = { slept: 0, alarms: 0, asked: 0 };
  const count = async () => {
    const { alarms, asked } = await counted(page);
    found.alarms += alarms;
    found.asked += asked;
  };
  for (let round = 1; round <= rounds; round += 1) {
    await pressAt(page, 'Filled', round * 10_000);
    await pass(page, roundMs);
    await pressAt(page, 'All good', round * 10_000 + 5_000);
    if (first.includes(round)) early.push(await measure());
    if (last.includes(round)) late.push(await measure());
    if (round % (rounds / wakes) === 0) {
      await page.evaluate(() => {
        (window as unknown as Watched).kept.lock?.dispatchEvent(new Event('release'));
        Object.assign((window as unknown as Watched).kept.lock ?? {}, { released: true });
      });
      await expect(evening.getByText('may sleep')).toBeVisible();
      await page.evaluate(() => document.dispatchEvent(new PointerEvent('pointerdown')));
      await expect(evening.getByText('may sleep')).toHaveCount(0);
      found.slept += 1;
    }
    if (round !== more.after) continue;
    await count();
    await repeatLastRound(page, more.rounds);
    await pass(page, more.rounds * fastMs + roundMs);
    await page.reload();
    await pass(page, 1_000);
    await expect(page.getByRole('navigation', { name: 'Log' })).toBeVisible();
    await watchAlarms(page);
  }
  await count();
  // A log of three times as many shots, too, is held in that room.
  const full = await measure();
  const before = least(early);
  const after = least(late);
  const shots = (await recordsOf<{ said: { kind: string; shots: unknown[] } }>(page, 'entries'))
    .filter(({ said }) => said.kind === 'opened')
    .reduce((sum, { said }) => sum + said.shots.length, 0);
  const grownMb = (Math.max(after.bytes, full.bytes) - before.bytes) / 1024 / 1024;
  const nodesShare = after.nodes / before.nodes - 1;
  const { slept, alarms, asked } = found;
  figure({
    drill: 'An evening of eight hours',
    required: 'heap +20 MB at most, nodes +5 % at most, one alarm a clock, 20 wake locks',
    reached: `${shots} shots, heap ${grownMb.toFixed(1)} MB, nodes ${(100 * nodesShare).toFixed(1)} %, ${alarms} alarms of ${3 * rounds} clocks, ${slept} of ${wakes} wake locks back`,
    isMet: grownMb <= 20 && nodesShare <= 0.05 && alarms === 3 * rounds && slept === wakes,
  });
  expect(shots).toBe(3 * (more.rounds + rounds));
  expect(grownMb).toBeLessThanOrEqual(20);
  expect(nodesShare).toBeLessThanOrEqual(0.05);
  expect(after.listeners).toBeLessThanOrEqual(before.listeners * 1.05);
  expect(alarms).toBe(3 * rounds);
  // One when the table comes, each time, and one after each sleep.
  expect(asked).toBe(2 + wakes);
});
