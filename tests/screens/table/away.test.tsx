import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import type { Seat } from '#calc/table.ts';
import { readyWords } from '#screens/table/return-words.ts';
import { TableScreen } from '#screens/table/TableScreen.tsx';
import { sealedSessions } from '#store/sessions.ts';
import { drawn } from '../../hands/drawn.ts';
import { placeFaults } from '../../hands/glass.ts';
import { keyDown, pageDown } from '../../hands/pedal.ts';
import { show } from '../../hands/show.tsx';
import { aTable, mainSays, type TestTable } from '../../hands/table.tsx';

const minuteMs = 60_000;
const glasses = [
  [320, 568],
  [360, 740],
  [412, 915],
  [740, 360],
  [915, 412],
  [768, 1024],
  [1024, 768],
] as const;

let table: TestTable;
let atMs = 700_000;

beforeEach(async () => {
  await page.viewport(360, 740);
  table = await aTable([
    ['Grub 50', 2, 4],
    ['Shad 7', 2, 2],
  ]);
  table.pass(1_000);
});

afterEach(() => vi.restoreAllMocks());

/** What the eye sees; a screen reader is told beside it. */
const text = (words: string | RegExp) => page.getByRole('main').getByText(words, { exact: true });
const key = (name: string | RegExp) => page.getByRole('button', { name });

/** Presses the main key by pedal. */
async function main(says: RegExp): Promise<void> {
  await mainSays(says);
  table.pass(400);
  atMs += 1_000;
  keyDown(pageDown, atMs);
}

function setSight(state: DocumentVisibilityState): void {
  vi.spyOn(document, 'visibilityState', 'get').mockReturnValue(state);
  document.dispatchEvent(new Event('visibilitychange'));
}

/** The phone sleeps, or a call is taken: time passes and nobody redraws. */
function away(ms: number): void {
  setSight('hidden');
  table.shop.set(table.shop.clock.now() + ms);
  setSight('visible');
  table.pass(0);
}

/** Milliseconds until the first mould is ready. */
const leftMs = () => Math.min(...(table.armed.at(-1) ?? []).map(({ inMs }) => inMs));

async function fill(): Promise<void> {
  await main(/^Filled/);
  await mainSays(/^Setting/);
  await expect.poll(() => table.armed.at(-1)?.length).toBe(2);
}

/** Shad 7 first, Grub 50 forty seconds later. */
async function fillApart(): Promise<void> {
  await key('Skip, Grub 50').click();
  await main(/^Filled Shad 7/);
  await mainSays(/^Setting/);
  table.pass(40_000);
  await key('Put back, Grub 50').click();
  await main(/^Filled Grub 50/);
  await expect.poll(() => table.armed.at(-1)?.length).toBe(2);
}

describe('somebody who comes back after a mould came due', () => {
  test('finds the same panel and marks, and one line that goes by itself after ten seconds', async () => {
    await fill();
    await key('Open now, Shad 7').click();
    await key(/^Mark bad, Shad 7/).click();
    await key(/^Cavity 3/).click();
    await expect.element(key(/^Cavity 3, Short/)).toBeVisible();
    away(leftMs() + 80_000);
    await expect.element(text('Grub 50 was ready 1:20 ago')).toBeVisible();
    await expect.element(key(/^Cavity 3, Short/)).toBeVisible();
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    table.pass(9_000);
    await expect.element(text('Grub 50 was ready 1:20 ago')).toBeVisible();
    table.pass(1_000);
    await expect.element(text('Grub 50 was ready 1:20 ago')).not.toBeInTheDocument();
    await expect.element(key(/^Cavity 3, Short/)).toBeVisible();
  });

  test('finds the card open, counting since its time, with nothing to dismiss', async () => {
    await fill();
    await key('Table').click();
    await expect.element(page.getByRole('region', { name: 'Table' })).toBeVisible();
    away(leftMs() + 80_000);
    await expect.element(page.getByRole('region', { name: 'Table' })).toBeVisible();
    // Two presses on one key this close would be one.
    await new Promise((resolve) => setTimeout(resolve, 430));
    await key('Table').click();
    await expect.element(page.getByText('+1:20').first()).toBeVisible();
    await mainSays(/^All good/);
  });

  test('reads the mould that waits longest first', async () => {
    await fillApart();
    const { first, second, firstMs, gapMs } = order();
    expect(gapMs).toBeGreaterThan(0);
    away(firstMs + gapMs + 65_000);
    await expect
      .element(text(`Ready: ${first} ${clock(gapMs + 65_000)} ago, ${second} 1:05`))
      .toBeVisible();
  });

  test('reads nothing about a mould that was opened by hand, or came due in sight', async () => {
    await fill();
    await key('Open now, Shad 7').click();
    await expect.poll(() => table.armed.at(-1)?.length).toBe(1);
    table.pass(leftMs() + 5_000);
    await mainSays(/^All good Grub 50 \+ Shad 7/);
    away(60_000);
    await expect.element(page.getByText(/was ready|Ready:/)).not.toBeInTheDocument();
  });

  test('reads it too when the table was left, or the app was killed meanwhile', async () => {
    await fillApart();
    const { first, second, firstMs, gapMs } = order();
    show(table.shop, <p>Elsewhere</p>);
    await expect.poll(() => table.armed.at(-1)).toEqual([]);
    table.shop.set(table.shop.clock.now() + firstMs + gapMs + 30_000);
    show(table.shop, <TableScreen />);

    await expect
      .element(text(`Ready: ${first} ${clock(gapMs + 30_000)} ago, ${second} 0:30`))
      .toBeVisible();
  });

  test('after more than an hour reads hours, not minutes', async () => {
    expect(readyWords([{ seat: { mould: { name: 'Grub 50' } } as Seat, at: 0 }], 3_725_000)).toBe(
      'Grub 50 was ready 1 h 02 ago',
    );
  });
});

/** Which mould comes due first, and by how much. */
function order() {
  const dues = (table.armed.at(-1) ?? []).toSorted((a, b) => a.inMs - b.inMs);
  const names = dues.map(({ place }) => ['Grub 50', 'Shad 7'][place - 1]);
  const [firstMs = 0, secondMs = 0] = dues.map(({ inMs }) => inMs);
  return { first: names[0], second: names[1], firstMs, gapMs: secondMs - firstMs };
}

/** `1:05`, by a sum of its own. */
function clock(ms: number): string {
  const sec = Math.floor(ms / 1_000);
  return `${(sec - (sec % 60)) / 60}:${`0${sec % 60}`.slice(-2)}`;
}

describe('somebody who was away for more than half an hour', () => {
  const finish = key(/^Finish at/);

  test('is asked if the pouring goes on, and can pour on without an answer', async () => {
    await fill();
    away(31 * minuteMs);
    await expect.element(text('Still pouring?')).toBeVisible();
    await expect.element(page.getByRole('dialog')).not.toBeInTheDocument();
    await expect.element(finish).toHaveTextContent(/^Finish at 19:02$/);
    await main(/^All good/);
    await mainSays(/^Filled/);
    await expect.element(text('Still pouring?')).not.toBeInTheDocument();
    await expect.element(key('Table')).toBeVisible();
  });

  test('carries on with one press, and is not asked again for a short look away', async () => {
    await fill();
    away(31 * minuteMs);
    await key('Carry on').click();
    await expect.element(text('Still pouring?')).not.toBeInTheDocument();
    away(minuteMs);
    await expect.element(text('Still pouring?')).not.toBeInTheDocument();
    expect((await table.entries()).map(({ said }) => said.kind)).toEqual(['filled']);
  });

  test('is still asked after a second, shorter absence', async () => {
    await fill();
    away(31 * minuteMs);
    await expect.element(text('Still pouring?')).toBeVisible();
    away(2 * minuteMs);
    await expect.element(text('Still pouring?')).toBeVisible();
  });

  test('finishes at the time of the last entry, and Back does not lead to the table', async () => {
    await fill();
    const lastAt = table.shop.clock.now();
    const pages = window.history.length;
    away(95 * minuteMs);
    await finish.click();
    await expect.poll(() => window.location.hash).toBe('#/pour');
    const [session] = await sealedSessions(table.shop.book);
    expect(Math.abs((session?.endedAt ?? 0) - lastAt)).toBeLessThan(1_000);
    expect(window.history.length).toBe(pages);
  });

  test('is not asked at half an hour, nor while cavities are being marked', async () => {
    await fill();
    away(30 * minuteMs);
    await expect.element(text('Still pouring?')).not.toBeInTheDocument();
    await key(/^Mark bad, Grub/).click();
    await mainSays(/^Save/);
    away(31 * minuteMs);
    await expect.element(text('Still pouring?')).not.toBeInTheDocument();
    await key(/^Back/).click();
    await expect.element(text('Still pouring?')).toBeVisible();
  });

  test('has two keys of glove size, clear of all others, on every glass', async () => {
    await fill();
    away(31 * minuteMs);
    const faults: string[] = [];
    for (const [width, height] of glasses) {
      await page.viewport(width, height);
      await drawn();
      faults.push(...placeFaults(document.body).map((one) => `${width}x${height}: ${one}`));
      for (const one of [finish, key('Carry on')]) {
        const box = one.element().getBoundingClientRect();
        if (Math.min(box.width, box.height) < 71.5) faults.push(`${width}: ${box.width}`);
      }
    }
    expect(faults).toEqual([]);
  });
});

describe('a phone clock that is turned in sight', () => {
  const said = text('Clock jumped. Times may be off.');

  test('is said in one line on every glass, in full where there is the room', async () => {
    table.shop.clock.jumpMs = () => 3_600_000;
    table.pass(1_000);
    await expect.element(said).toBeVisible();
    const faults: string[] = [];
    for (const [width, height] of [...glasses, [915, 412] as const]) {
      await page.viewport(width, height);
      await drawn();
      const notice = document.querySelector('[data-kind="clock"]');
      const range = document.createRange();
      if (notice) range.selectNodeContents(notice);
      const tops = new Set([...range.getClientRects()].map(({ top }) => Math.round(top / 8)));
      if (tops.size !== 1) faults.push(`${width}x${height}: ${tops.size} lines`);
      if (notice && notice.scrollWidth > notice.clientWidth) faults.push(`${width}: cut`);
    }
    expect(faults).toEqual([]);
    await page.viewport(768, 1024);
    await expect.element(text('Phone clock jumped. Times near here may be off.')).toBeVisible();
    await page.viewport(360, 740);
  });

  test('by more than a minute is said, kept in the log, and moves no countdown', async () => {
    await fill();
    const before = leftMs();
    table.shop.clock.jumpMs = () => 3_600_000;
    table.pass(1_000);
    await expect.element(said).toBeVisible();
    const entries = await table.entries();
    expect(entries.at(-1)?.said).toEqual({
      kind: 'noted',
      text: 'Phone clock turned on by 1 h 00. Times near here may be off.',
    });
    expect(entries).toHaveLength(2);
    expect(leftMs()).toBe(before);
    // Undo takes back presses; the note stays.
    await expect.element(key(/^Undo/)).toHaveTextContent(/Filled/);
    // Said once: neither ten seconds nor the next press bring it again.
    table.pass(11_000);
    await expect.element(said).toBeVisible();
    await key('Open now, Grub 50').click();
    await expect.element(said).not.toBeInTheDocument();
    table.pass(1_000);
    expect(await table.entries()).toHaveLength(3);
  });

  test('back is said as well, and a second turn again', async () => {
    table.shop.clock.jumpMs = () => -120_000;
    table.pass(1_000);
    await expect.element(said).toBeVisible();
    await expect.poll(async () => (await table.entries()).length).toBe(1);
    table.shop.clock.jumpMs = () => -300_000;
    table.pass(1_000);
    await expect.poll(async () => (await table.entries()).length).toBe(2);
    expect((await table.entries()).at(-1)?.said).toMatchObject({
      text: expect.stringMatching(/back by 3 min/),
    });
  });

  test.each([0, 59_000, -60_000])('by %i ms is not said', async (byMs) => {
    table.shop.clock.jumpMs = () => byMs;
    table.pass(1_000);
    table.pass(1_000);
    await expect.element(said).not.toBeInTheDocument();
    expect(await table.entries()).toEqual([]);
  });
});
