import { expect } from '@playwright/test';
import { violationsOn } from './axe.ts';
import { figure } from './figure.ts';
import { everyPage, withNameless } from './pages.ts';
import { test } from './site.ts';

const demo = 'warmshot-demo';
/** Widths beside the usual 360 px: the narrowest glass, and a tablet. */
const otherWidths = [320, 768];

test('every page of a full shop keeps to the content policy, asks nobody else and has no fault that axe knows', async ({
  page,
  site,
  heard,
}) => {
  test.setTimeout(480_000);
  await page.goto(`${site.url}?demo#/moulds`);
  await expect(page.getByText('Grub 50').first()).toBeVisible();
  await withNameless(page, demo);
  const pages = await everyPage(page, demo);
  const faults: string[] = [];
  const wide: string[] = [];
  for (const address of pages) {
    // So tall that nothing lies under the bar of the places, where a target looks smaller than it is.
    await page.setViewportSize({ width: 360, height: 8_000 });
    await page.goto(`${site.url}?demo#/${address}`);
    await expect(page.locator('h1').first(), address).toBeVisible();
    await expect(page.getByRole('alert'), address).toHaveCount(0);
    faults.push(...(await violationsOn(page, address, false)));
    for (const width of otherWidths) {
      await page.setViewportSize({ width, height: 8_000 });
      faults.push(...(await violationsOn(page, `${address} ${width}`, false, ['chalk'])));
    }
    // 320 px wide, and text twice as large: nothing needs to be moved sideways.
    await page.setViewportSize({ width: 320, height: 8_000 });
    for (const size of ['', '200%']) {
      await page.evaluate((to) => {
        document.documentElement.style.fontSize = to;
      }, size);
      const over = await page.evaluate(() => document.documentElement.scrollWidth);
      if (over > 320) wide.push(`${address} ${size}: ${over}`);
    }
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '';
    });
  }
  figure({
    drill: 'Every page of a full shop: content policy and accessibility',
    required:
      '0 policy breaks, errors or requests elsewhere; 0 faults of axe at 320, 360 and 768 px; 0 wider than the glass, also at 200 % text',
    reached: `${pages.length} pages: ${heard.length}, ${faults.length} and ${wide.length}`,
    isMet: heard.length + faults.length + wide.length === 0,
  });
  expect(faults).toEqual([]);
  expect(wide).toEqual([]);
  expect(heard).toEqual([]);
});
