import { afterEach, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import { type SessionLog, useSessionLog } from '#live/use-session-log.ts';
import { fillDevice } from '../../hands/full-device.ts';
import { failNth } from '../../hands/nth-call.ts';
import { keyDown, pageDown } from '../../hands/pedal.ts';
import { show } from '../../hands/show.tsx';
import { aTable, mainSays, type TestTable } from '../../hands/table.tsx';

const setMs = 600_000;
let atMs = 2_000_000;

afterEach(() => vi.restoreAllMocks());

async function main(table: TestTable, says: RegExp): Promise<void> {
  await mainSays(says);
  table.pass(400);
  atMs += 1_000;
  keyDown(pageDown, atMs);
}

const alarm = page.getByRole('alert');

test('with storage full logging goes on in memory, it is said until there is room, and then all of it is stored once', async () => {
  const table = await aTable([['Grub 50', 2, 4]]);
  table.pass(1_000);
  await main(table, /^Filled/);
  await mainSays(/^Setting/);
  expect(await table.entries()).toHaveLength(1);
  table.pass(setMs);

  const free = fillDevice();
  const since = performance.now();
  await main(table, /^All good/);
  await expect.element(alarm).toHaveTextContent('Not saving. Free some space.');
  expect(performance.now() - since).toBeLessThan(1_000);
  for (let shot = 2; shot <= 30; shot += 1) {
    await main(table, /^Filled/);
    await mainSays(/^Setting/);
    table.pass(setMs);
    await main(table, /^All good/);
    await mainSays(/^Filled/);
  }
  // 59 presses: more than the fifty that must be kept.
  await expect.element(alarm).toHaveTextContent('Not saving. Free some space.');
  await expect.element(page.getByText('240 good', { exact: true })).toBeInTheDocument();
  expect(await table.entries()).toHaveLength(1);

  free();
  // A try that was under way knows nothing of the last press: the one after it does.
  await expect
    .poll(async () => {
      table.pass(1_000);
      return (await table.entries()).length;
    })
    .toBe(60);
  await expect.element(alarm).not.toBeInTheDocument();
  expect(new Set((await table.entries()).map(({ id }) => id)).size).toBe(60);
}, 60_000);

test('a store that gives no answer is told of within a second, and the entry is there once', async () => {
  const table = await aTable([['Grub 50', 2, 4]]);
  table.pass(1_000);
  const { name } = table.shop.book.db;
  const silent = failNth('commit', 1, 'no answer', (db) => db.name === name);
  await main(table, /^Filled/);
  await expect.poll(silent.isDone).toBe(true);
  // 1 s of the table's own clock at most, in the steps of its ticks.
  for (let ms = 0; ms < 900; ms += 450) table.pass(450);
  await expect.element(alarm).toHaveTextContent(/^Not saving/);
  silent.answer();
  silent.restore();
  table.pass(1_000);
  await expect.element(alarm).not.toBeInTheDocument();
  await mainSays(/^Setting/);
  expect(await table.entries()).toHaveLength(1);
});

test('the line stands over an open map as well, whole on every glass', async () => {
  const table = await aTable([['Grub 50', 2, 4]]);
  table.pass(1_000);
  await main(table, /^Filled/);
  await mainSays(/^Setting/);
  const free = fillDevice();
  await page.getByRole('button', { name: /^Open now/ }).click();
  await expect.element(alarm).toBeVisible();
  await page.getByRole('button', { name: /^Cavity 1/ }).click();
  await mainSays(/^Save 7 good, 1 bad/);
  for (const [width, height] of [
    [360, 740],
    [740, 360],
    [1024, 768],
  ] as const) {
    await page.viewport(width, height);
    await expect.element(alarm).toBeVisible();
    const box = alarm.element().getBoundingClientRect();
    expect(box.right, `${width}`).toBeLessThanOrEqual(width);
    expect(alarm.element().scrollWidth, `${width}`).toBeLessThanOrEqual(Math.ceil(box.width));
  }
  free();
});

test('a press that may not stand in the log is refused to the hand, and the next one is stored', async () => {
  const table = await aTable([['Grub 50', 2, 4]]);
  let log: SessionLog | null | undefined;
  function Hand() {
    log = useSessionLog();
    return null;
  }
  show(table.shop, <Hand />);
  await expect.poll(() => log?.entries.length).toBe(3);
  await log?.write({ kind: 'heated', potId: 'no pot', targetC: Number.NaN } as never);
  expect(table.shop.felt).toEqual(['refuse']);
  expect(table.heard).toEqual(['wrong way']);
  expect(log?.unsaved).toBe(0);
  expect(await table.entries()).toEqual([]);
  await log?.write({ kind: 'session-ended' });
  await expect.poll(() => table.heard).toEqual(['wrong way', 'logged']);
  expect(await table.entries()).toHaveLength(1);
});
