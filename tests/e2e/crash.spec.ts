import { chromium, expect, type Page, test } from '@playwright/test';
import { chromiumPath, quietArgs } from './backends.ts';
import { figure } from './figure.ts';
import { addMould, lineUp, press, pressMain } from './hands.ts';
import { recordsOf } from './site.ts';

const crashes = 4;
const returns = 20;

/** Counts the ticks that a hand was given: the buzz comes once a press is on disk. */
async function withTicks(page: Page, tick: () => void): Promise<void> {
  await page.exposeFunction('ticked', tick);
  await page.addInitScript(() => {
    Object.defineProperty(navigator, 'vibrate', {
      value: (pattern: number | number[]) => {
        if (typeof pattern === 'number') (window as unknown as { ticked(): void }).ticked();
        return true;
      },
    });
  });
}

test('a page that crashes, or is left and come back to, keeps every tick and every half-made mark', async () => {
  test.setTimeout(180_000);
  const browser = await chromium.launch({
    executablePath: chromiumPath,
    args: quietArgs,
    // Else the pages that are left would never be kept as they are.
    ignoreDefaultArgs: ['--disable-back-forward-cache'],
  });
  const baseURL = test.info().project.use.baseURL ?? '';
  const context = await browser.newContext({ baseURL, viewport: { width: 360, height: 740 } });
  let page = await context.newPage();
  let ticks = 0;
  const tick = () => {
    ticks += 1;
  };
  await addMould(page, 'Grub', 2, 2);
  await addMould(page, 'Shad', 2, 2);
  await lineUp(page, ['Grub', 'Shad']);
  const opening = (await recordsOf(page, 'entries')).length;
  await page.close();
  const lines = async () => (await recordsOf(page, 'entries')).length - opening;

  let lost = 0;
  let marks = 0;
  for (let crash = 1; crash <= crashes; crash += 1) {
    page = await context.newPage();
    await withTicks(page, tick);
    await page.goto('./');
    if (crash > 1) {
      // The map is open as it was left, with its mark.
      await pressMain(page, /^Save 3 good, 1 bad/);
      marks += 1;
      await pressMain(page, /^All good Shad/);
    }
    await pressMain(page, /^Filled/);
    await press(page, /^Open now, Grub/);
    await press(page, /^Open now, Shad/);
    await press(page, /^Mark bad, Grub/);
    await press(page, /^Cavity 2/);
    const asked = ticks;
    const device = await context.newCDPSession(page);
    const crashed = page.waitForEvent('crash');
    void device.send('Page.crash').catch(() => {});
    await crashed;
    const next = await context.newPage();
    await page.close();
    page = next;
    await page.goto('./');
    lost += Math.max(0, asked - (await lines()));
    await page.close();
  }

  page = await context.newPage();
  await withTicks(page, tick);
  await page.goto('./');
  await pressMain(page, /^Save 3 good, 1 bad/);
  await pressMain(page, /^All good Shad/);
  let back = 0;
  for (let turn = 1; turn <= returns; turn += 1) {
    await press(page, /^(Skip|Put back).*Shad/);
    await page.goto('./icon.svg');
    await page.evaluate(() => window.history.back()).catch(() => {});
    await expect(page.getByRole('navigation', { name: 'Log' })).toBeVisible();
    if ((await lines()) >= ticks) back += 1;
  }
  lost += Math.max(0, ticks - (await lines()));
  figure({
    drill: 'The page crashes, or is left and come back to',
    required: '0 ticks lost, marks back, the log goes on',
    reached: `${crashes} crashes, ${returns} returns: ${ticks} ticks, ${lost} lost, ${marks} of ${crashes - 1} marks back`,
    isMet: lost === 0 && marks === crashes - 1 && back === returns,
  });
  expect(ticks).toBeGreaterThan(crashes * 3 + returns - 1);
  expect(lost).toBe(0);
  expect(back).toBe(returns);
  await browser.close();
});
