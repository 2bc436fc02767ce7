import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, type Page } from '@playwright/test';
import { chromiumPath, quietArgs } from './backends.ts';
import { figure } from './figure.ts';
import { addMould, lineUp, press, pressMain } from './hands.ts';
import { finish, recordsOf, test } from './site.ts';

interface Line {
  at: number;
  stamp: string;
  said: { kind: string; text?: string; zone?: string };
}
interface Sealed {
  startedAt: number;
  endedAt: number;
  zone: string;
  entries: Line[];
}
type Turned = Window & { turnTo(wall: number): void };

/** A wall clock that somebody can turn; the steady clock of the page goes on, as HR Time, W3C, asks. */
async function withTurnedClock(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const Real = Date;
    let byMs = 0;
    class TurnedDate extends Real {
      constructor(...parts: unknown[]) {
        if (parts.length === 0) super(Real.now() + byMs);
        else super(...(parts as [number]));
      }
      static override now() {
        return Real.now() + byMs;
      }
    }
    Object.assign(window, {
      Date: TurnedDate,
      turnTo: (wall: number) => {
        byMs = wall - Real.now();
      },
    });
  });
}

/** Two moulds on the table, of which one fills and the other sits out. */
async function aTable(page: Page): Promise<void> {
  await addMould(page, 'Grub', 2, 2);
  await addMould(page, 'Shad', 2, 2);
  await lineUp(page, ['Grub', 'Shad']);
  await press(page, /^Skip, Shad|^Skip.*Shad/);
}

/** What the first card says, s: below 0 is time left; read beside the page's steady clock. */
async function lookAt(page: Page): Promise<{ shownSec: number; steadyMs: number }> {
  return await page.evaluate(() => {
    const digits = document.querySelector('[role="timer"]')?.textContent ?? 'none';
    const [minutes = 0, seconds = 0] = digits.replace('+', '').split(':').map(Number);
    const shown = minutes * 60 + seconds;
    return { shownSec: digits.startsWith('+') ? shown : -shown, steadyMs: performance.now() };
  });
}

/** The same at the moment when the digits change: then they are right to a frame. */
async function lookAtTurn(page: Page): Promise<{ shownSec: number; steadyMs: number }> {
  await page.evaluate(async () => {
    const digits = () => document.querySelector('[role="timer"]')?.textContent;
    const before = digits();
    while (digits() === before) await new Promise((resolve) => requestAnimationFrame(resolve));
  });
  return await lookAt(page);
}

const hourMs = 3_600_000;
const jumps: readonly (readonly [name: string, to: (now: number) => number])[] = [
  ['2 s on', (now) => now + 2_000],
  ['2 s back', (now) => now - 2_000],
  ['an hour on', (now) => now + hourMs],
  ['an hour back', (now) => now - hourMs],
  ['a day on', (now) => now + 24 * hourMs],
  ['a day back', (now) => now - 24 * hourMs],
  ['to 1970', () => 60_000],
  ['to 2100', () => Date.UTC(2100, 5, 1)],
];

test('a phone clock that jumps moves no countdown, refuses no press and turns no two lines round', async ({
  page,
}) => {
  await withTurnedClock(page);
  await aTable(page);
  await pressMain(page, /^Filled/);
  await expect(page.getByRole('timer').first()).toBeVisible();
  const first = await lookAtTurn(page);
  let worstSec = 0;
  let refused = 0;
  for (const [, to] of jumps) {
    const before = await recordsOf<Line>(page, 'entries');
    await page.evaluate((wall) => (window as unknown as Turned).turnTo(wall), to(Date.now()));
    await press(page, /^(Skip|Put back).*Shad/);
    const look = await lookAt(page);
    // Whole seconds are shown: that many of them are gone.
    const goneSec = Math.floor((look.steadyMs - first.steadyMs) / 1_000);
    worstSec = Math.max(worstSec, Math.abs(look.shownSec - first.shownSec - goneSec));
    const said = (await recordsOf<Line>(page, 'entries')).filter(
      ({ said }) => said.kind !== 'noted',
    );
    const wanted = before.filter(({ said }) => said.kind !== 'noted').length + 1;
    if (said.length !== wanted) refused += 1;
  }
  const lines = await recordsOf<Line>(page, 'entries');
  const turned = lines.filter(({ said }) => said.kind === 'noted');
  const backwards = lines.filter(({ at }, index) => at < (lines[index - 1]?.at ?? 0));
  figure({
    drill: 'The phone clock jumps in a session',
    required: 'countdown within 1 s, order kept, 0 presses refused, jumps in the log',
    reached: `${jumps.length} jumps: worst ${worstSec} s, ${backwards.length} lines turned round, ${refused} refused, ${turned.length} noted`,
    isMet: worstSec <= 1 && backwards.length + refused === 0 && turned.length >= 6,
  });
  expect(worstSec).toBeLessThanOrEqual(1);
  expect(backwards).toEqual([]);
  expect(refused).toBe(0);
  // 2 s are within what a phone sets by itself: no note.
  expect(turned.length).toBeGreaterThanOrEqual(6);

  // A phone whose battery was empty may wake in 1970: it can still pour.
  await page.addInitScript(() => (window as unknown as Turned).turnTo(60_000));
  await page.reload();
  await press(page, /^(Skip|Put back).*Shad/);
  expect(await recordsOf<Line>(page, 'entries')).toHaveLength(lines.length + 1);
  await finish(page);
  await lineUp(page, ['Grub']);
  await pressMain(page, /^Filled/);
  await expect(page.getByRole('alert')).toHaveCount(0);
});

/** Every process of the browser stands still for so long, as on a phone that sleeps. */
const sleepMs = 65_000;

/** Every process below these, and these. */
function treeOf(profile: string): string[] {
  const rows = execFileSync('ps', ['-eo', 'pid=,ppid=,args='], { encoding: 'utf8' })
    .split('\n')
    .map((row) => /^\s*(\d+)\s+(\d+)\s(.*)$/.exec(row))
    .filter((row) => row !== null);
  const all = new Set(
    rows.filter(([, , , args]) => args?.includes(`user-data-dir=${profile}`)).map(([, pid]) => pid),
  );
  for (let before = -1; before !== all.size; ) {
    before = all.size;
    for (const [, pid, parent] of rows) if (all.has(parent)) all.add(pid);
  }
  return [...all] as string[];
}

test('a phone that sleeps through the end of a countdown says at once how long the mould is open, once', async () => {
  test.setTimeout(180_000);
  const profile = mkdtempSync(join(tmpdir(), 'warmshot-sleep-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath,
    args: quietArgs,
    viewport: { width: 360, height: 740 },
    baseURL: test.info().project.use.baseURL ?? '',
  });
  const page = context.pages()[0] ?? (await context.newPage());
  await addMould(page, 'Grub', 2, 2);
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const opening = indexedDB.open('warmshot');
        opening.onsuccess = () => {
          const tx = opening.result.transaction('moulds', 'readwrite');
          const all = tx.objectStore('moulds').getAll();
          all.onsuccess = () => tx.objectStore('moulds').put({ ...all.result[0], setSec: 15 });
          tx.oncomplete = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
  );
  await lineUp(page, ['Grub']);
  await pressMain(page, /^Filled/);
  await expect(page.getByRole('timer').first()).toBeVisible();
  await page.evaluate(() => {
    const seen: { at: number; wall: number; timer: string }[] = [];
    Object.assign(window, { seen });
    const told: string[] = [];
    Object.assign(window, { told });
    const status = document.querySelector('p.said[role="status"]');
    if (status) {
      new MutationObserver(() => told.push(status.textContent ?? '')).observe(status, {
        childList: true,
        characterData: true,
        subtree: true,
      });
    }
    setInterval(
      () =>
        seen.push({
          at: performance.now(),
          wall: Date.now(),
          timer: document.querySelector('[role="timer"]')?.textContent ?? '',
        }),
      50,
    );
  });
  const lines = await recordsOf<Line>(page, 'entries');
  const filledAt = lines.find(({ said }) => said.kind === 'filled')?.at ?? 0;
  // It was seen awake: the gap in what was seen is the sleep.
  await page.waitForFunction(() => (window as unknown as { seen: unknown[] }).seen.length > 3);
  const asleep = treeOf(profile);
  expect(asleep.length).toBeGreaterThan(2);
  execFileSync('kill', ['-STOP', ...asleep]);
  await new Promise((resolve) => setTimeout(resolve, sleepMs));
  execFileSync('kill', ['-CONT', ...asleep]);
  await expect(page.getByRole('timer').first()).toContainText('+');
  await page.waitForFunction(
    () =>
      (window as unknown as { seen: { timer: string }[] }).seen.filter(({ timer }) =>
        timer.startsWith('+'),
      ).length > 40,
  );
  const { seen, told } = await page.evaluate(() => {
    const kept = window as unknown as {
      seen: { at: number; wall: number; timer: string }[];
      told: string[];
    };
    return { seen: kept.seen, told: kept.told };
  });
  const woke = seen.findIndex(({ at }, index) => at - (seen[index - 1]?.at ?? at) > sleepMs / 2);
  const right = seen.findIndex(({ timer }, index) => index >= woke && timer.startsWith('+'));
  const errors = seen.slice(right).map(({ wall, timer }) => {
    const [minutes = 0, seconds = 0] = timer.replace('+', '').split(':').map(Number);
    return Math.abs(minutes * 60 + seconds - Math.floor((wall - filledAt) / 1_000 - 15));
  });
  const alarms = told.filter((words) => /^Grub open/.test(words)).length;
  const looks = right - woke;
  figure({
    drill: 'The phone sleeps in a countdown',
    required: 'overdue within 0.5 s of waking, right to 1 s, one alarm',
    reached: `${((seen[right]?.at ?? 0) - (seen[woke]?.at ?? 0)).toFixed(0)} ms (${looks} looks) after waking, worst ${Math.max(...errors)} s, ${alarms} alarm`,
    isMet: looks <= 10 && Math.max(...errors) <= 1 && alarms === 1,
  });
  expect(woke).toBeGreaterThan(0);
  // Ten looks are half a second of the page's own time, however busy the machine is.
  expect(looks).toBeLessThanOrEqual(10);
  expect(Math.max(...errors)).toBeLessThanOrEqual(1);
  expect(alarms).toBe(1);
  await context.close();
  rmSync(profile, { recursive: true, force: true });
});

/**
 * Both changes of the clocks of 2026 in each of these places, half an hour before each, with the day
 * there: read off the IANA time zone database (zdump -v). Lord Howe moves by half an hour;
 * Casablanca goes back for Ramadan.
 */
const changes = [
  ['Europe/Berlin', '2026-03-29T00:30:00Z', '2026-03-29'],
  ['Europe/Berlin', '2026-10-25T00:30:00Z', '2026-10-25'],
  ['America/New_York', '2026-03-08T06:30:00Z', '2026-03-08'],
  ['America/New_York', '2026-11-01T05:30:00Z', '2026-11-01'],
  ['Australia/Lord_Howe', '2026-04-04T14:30:00Z', '2026-04-05'],
  ['Australia/Lord_Howe', '2026-10-03T15:00:00Z', '2026-10-04'],
  ['Pacific/Auckland', '2026-04-04T13:30:00Z', '2026-04-05'],
  ['Pacific/Auckland', '2026-09-26T13:30:00Z', '2026-09-27'],
  ['America/Santiago', '2026-04-05T02:30:00Z', '2026-04-04'],
  ['America/Santiago', '2026-09-06T03:30:00Z', '2026-09-05'],
  ['Africa/Casablanca', '2026-02-15T01:30:00Z', '2026-02-15'],
  ['Africa/Casablanca', '2026-03-22T01:30:00Z', '2026-03-22'],
] as const;
/** Where the phone is carried in the session, once a round. */
const zones = ['Asia/Kolkata', 'America/Sao_Paulo', 'Pacific/Kiritimati'] as const;

for (const [home, begins, dayThere] of changes) {
  test(`a session across the change of clocks in ${home} of ${dayThere}, the phone carried through ${zones.length} zones: every span is right`, async ({
    page,
  }) => {
    const device = await page.context().newCDPSession(page);
    const carryTo = (timezoneId: string) =>
      device.send('Emulation.setTimezoneOverride', { timezoneId });
    await carryTo(home);
    await page.clock.install({ time: new Date(begins) });
    await addMould(page, 'Grub', 2, 2);
    await lineUp(page, ['Grub']);
    const minutes: number[] = [];
    const begunAt = await page.evaluate(() => Date.now());
    for (const zone of zones) {
      await pressMain(page, /^Filled/);
      minutes.push(((await page.evaluate(() => Date.now())) - begunAt) / 60_000);
      await expect(page.getByRole('timer').first()).toHaveText(/^[23]:[05]/);
      await carryTo(zone);
      await page.clock.fastForward(60_000);
      await expect(page.getByRole('timer').first()).toHaveText(/^[12]:[05]/);
      await page.clock.fastForward(125_000);
      await expect(page.getByRole('timer').first()).toHaveText(/^[+]0:0/);
      await pressMain(page, /^All good/);
      await page.clock.fastForward(10 * 60_000);
    }
    await finish(page);
    const [sealed] = await recordsOf<Sealed>(page, 'sealed');
    const [columns] = await recordsOf<{ openSec: Record<number, number> }>(page, 'columns');
    const opens = Object.values(columns?.openSec ?? {});
    const fills = (sealed?.entries ?? [])
      .filter(({ said }) => said.kind === 'filled')
      .map(({ at }) => (at - (sealed?.startedAt ?? 0)) / 60_000);
    // Where it was begun is where it was poured, wherever the phone has been since.
    const day = new Intl.DateTimeFormat('en-CA', { timeZone: sealed?.zone ?? '' }).format(begunAt);
    const isRight =
      opens.length === zones.length &&
      opens.every((sec) => sec === 180) &&
      fills.every((at, index) => Math.abs(at - (minutes[index] ?? 0)) < 1) &&
      sealed?.zone === home &&
      day === dayThere;
    figure({
      drill: 'Time zones and the change of clocks in a session',
      required: `${changes.length} changes of clocks in 6 places: spans exact, the day of the place where it was poured`,
      reached: `${home} ${day}: ${opens.join(' ')} s`,
      isMet: isRight,
    });
    expect(opens).toEqual(zones.map(() => 180));
    expect(isRight).toBe(true);
  });
}
