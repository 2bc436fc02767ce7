import { type CDPSession, expect, type Page, test } from '@playwright/test';
import { firstSession, key, mainKey, openApp } from './hands.ts';

// Real touches of the browser, not events made by hand: a finger rests, a foot presses.

interface Touch {
  id: number;
  x: number;
  y: number;
}

async function middleOf(page: Page, name: RegExp): Promise<Omit<Touch, 'id'>> {
  const box = await key(page, name).boundingBox();
  if (!box) throw new Error(`There is no ${name}.`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function touch(
  device: CDPSession,
  type: 'touchStart' | 'touchMove' | 'touchEnd',
  touchPoints: Touch[],
) {
  await device.send('Input.dispatchTouchEvent', { type, touchPoints });
}

test('a key that vanishes under a resting finger leaves the glass alive', async ({ page }) => {
  await openApp(page);
  await firstSession(page);
  const device = await page.context().newCDPSession(page);
  for (const id of [1, 2, 3]) {
    await expect.poll(() => mainKey(page)).toMatch(/^Filled/);
    await touch(device, 'touchStart', [{ id, ...(await middleOf(page, /^Log now/)) }]);
    await page.waitForTimeout(450);
    await page.keyboard.press('PageDown');
    await expect.poll(() => mainKey(page)).toMatch(/^Setting/);
    await touch(device, 'touchEnd', []);
    await page.waitForTimeout(450);
    await page.keyboard.press('PageUp');
    await expect.poll(() => mainKey(page)).toMatch(/^Filled/);
    await page.waitForTimeout(450);
  }
  await touch(device, 'touchStart', [{ id: 9, ...(await middleOf(page, /^Filled/)) }]);
  await touch(device, 'touchEnd', []);
  await expect.poll(() => mainKey(page)).toMatch(/^Setting/);
});

test('two contacts on the bare card and one on the main key log nothing', async ({ page }) => {
  await openApp(page);
  await firstSession(page);
  await page.waitForTimeout(450);
  const device = await page.context().newCDPSession(page);
  const main = { id: 3, ...(await middleOf(page, /^Filled/)) };
  const palm = [
    { id: 1, x: 60, y: 250 },
    { id: 2, x: 180, y: 260 },
  ];
  await touch(device, 'touchStart', palm);
  await touch(device, 'touchStart', [...palm, main]);
  await touch(device, 'touchEnd', []);
  await page.waitForTimeout(450);
  expect(await mainKey(page)).toMatch(/^Filled/);
  await touch(device, 'touchStart', [main]);
  await touch(device, 'touchEnd', []);
  await expect.poll(() => mainKey(page)).toMatch(/^Setting/);
});

test('checklist 7: a swipe from anywhere to anywhere, a drag from key to key and a turned wheel do nothing at the table', async ({
  page,
}) => {
  await openApp(page);
  await firstSession(page);
  const device = await page.context().newCDPSession(page);
  const asItIs = () =>
    page.evaluate(() => ({
      words: document.querySelector('main')?.textContent,
      keys: [...document.querySelectorAll('button')].map((one) => one.textContent),
      at: [window.scrollX, window.scrollY, window.location.hash, window.history.length],
      scrolled: [...document.querySelectorAll('*')].filter((one) => one.scrollTop !== 0).length,
    }));
  // The rounds that are left come a moment after the table.
  await expect(key(page, /^Pot:/)).toContainText(/\d left$/);
  const before = await asItIs();
  const [log, skip, undo] = [
    await middleOf(page, /^Log now/),
    await middleOf(page, /^Skip/),
    await middleOf(page, /^Undo/),
  ];
  const { width = 0, height = 0 } = page.viewportSize() ?? {};
  const middle = { x: width / 2, y: height / 3 };
  for (const [from, to] of [
    [middle, { x: middle.x, y: height - 200 }],
    [middle, { x: middle.x, y: 20 }],
    [{ x: 2, y: middle.y }, middle],
    [{ x: width - 2, y: middle.y }, middle],
    [middle, { x: 4, y: middle.y }],
    [log, skip],
    [skip, undo],
  ] as const) {
    await touch(device, 'touchStart', [{ id: 1, ...from }]);
    for (const share of [0.25, 0.5, 0.75, 1]) {
      const x = from.x + (to.x - from.x) * share;
      const y = from.y + (to.y - from.y) * share;
      await touch(device, 'touchMove', [{ id: 1, x, y }]);
    }
    await touch(device, 'touchEnd', []);
  }
  await page.mouse.move(middle.x, middle.y);
  await page.mouse.wheel(0, 600);
  // As long as a press takes to be stored and shown.
  await page.waitForTimeout(500);
  expect(await asItIs()).toEqual(before);
  // The glass still feels a press.
  await expect.poll(() => mainKey(page)).toMatch(/^Filled/);
  await touch(device, 'touchStart', [{ id: 2, ...(await middleOf(page, /^Filled/)) }]);
  await touch(device, 'touchEnd', []);
  await expect.poll(() => mainKey(page)).toMatch(/^Setting/);
});
