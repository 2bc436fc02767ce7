import { h } from 'preact';
import { expect, test } from 'vitest';
import { cdp, page } from 'vitest/browser';
import { addToGroups, groupYields, type ShotGroups } from '#calc/shot-groups.ts';
import { YieldsScreen } from '#screens/yields/YieldsScreen.tsx';
import { aShop, show } from '../hands/show.tsx';
import { addShots } from './shots.ts';
import { msOf, report } from './timing.ts';

// The page of yields over a long log on a phone a quarter as fast as this machine. Printed as shares
// of what a person does not notice; what is asserted is only that the page came to its answer.

const slower = 4;
const soonMs = 1_000;
const jerkMs = 200;

async function throttled(rate: number): Promise<void> {
  const session = cdp() as { send(method: string, params: object): Promise<unknown> };
  await session.send('Emulation.setCPUThrottlingRate', { rate });
}

/** The longest stretches in which the page could not draw or hear a press, ms, while `act` ran. */
async function longestTask(act: () => Promise<void>): Promise<number> {
  let longest = 0;
  const observer = new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) longest = Math.max(longest, duration);
  });
  observer.observe({ entryTypes: ['longtask'] });
  await act();
  observer.disconnect();
  return longest;
}

test('100,000 shots: the page of yields says how far it is, then answers, and stays pressable', async () => {
  const shop = await aShop();
  const sessions = await addShots(shop.book, 100_000);
  await throttled(slower);
  try {
    let [wordsMs, listMs] = [0, 0];
    const longest = await longestTask(async () => {
      const from = performance.now();
      show(shop, h(YieldsScreen, {}));
      await expect.element(page.getByText(/^Reading the log: /)).toBeVisible();
      wordsMs = performance.now() - from;
      await expect
        .element(page.getByRole('heading', { name: 'Mould by mould' }), { timeout: 60_000 })
        .toBeVisible();
      listMs = performance.now() - from;
      await expect
        .element(page.getByText('What bad ones go with'), { timeout: 60_000 })
        .toBeVisible();
    });
    report('yields of 100,000 shots at 4x: first words, to 1 s', wordsMs / soonMs, '<= 1');
    report('yields of 100,000 shots at 4x: list, to 1 s', listMs / soonMs, '<= 1, or words');
    report('yields of 100,000 shots at 4x: longest task, to 0.2 s', longest / jerkMs, '<= 1');
    const again = await msOf(async () => {
      await page.getByRole('button', { name: 'Days' }).click();
      await expect
        .element(page.getByRole('heading', { name: 'Day by day' }), { timeout: 60_000 })
        .toBeVisible();
    });
    report('yields of 100,000 shots at 4x: another list, to 1 s', again / soonMs, '<= 1');
  } finally {
    await throttled(1);
  }
  const timeOf = (count: number) =>
    msOf(() => {
      const groups: ShotGroups = new Map();
      addToGroups(groups, sessions.slice(0, count), 'mould');
      groupYields(groups, 'mould', 0.9);
    });
  await timeOf(200);
  const [few, many] = [await timeOf(200), await timeOf(2_000)];
  report('yields by mould, 100,000 shots to 10,000', many / few, 'about 10, no worse');
});
