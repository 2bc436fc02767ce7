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

async function touch(device: CDPSession, type: 'touchStart' | 'touchEnd', touchPoints: Touch[]) {
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
