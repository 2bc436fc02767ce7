import { expect, type Page, test } from '@playwright/test';
import { addMould, key, lineUp, openApp, press } from './hands.ts';

const sizes = [
  [320, 568],
  [360, 740],
  [393, 852],
  [412, 915],
  [740, 360],
  [915, 412],
  [768, 1024],
  [1024, 768],
] as const;
const moulds = [
  ['Grub 50', 2, 4],
  ['Shad 7', 2, 2],
  ['Leaf tail', 2, 6],
] as const;

interface Box {
  name: string;
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** Every key that can be seen, as it is painted. */
async function keysOn(page: Page): Promise<Box[]> {
  return await page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('button')]
      .filter((button) => button.checkVisibility() && button.getClientRects().length > 0)
      .map((button) => {
        const { left, top, right, bottom } = button.getBoundingClientRect();
        const name = button.getAttribute('aria-label') ?? button.textContent ?? '';
        return { name, left, top, right, bottom };
      }),
  );
}

/** What breaks the rules of size, gap and place on the page now. */
async function faultsOn(page: Page, where: string): Promise<string[]> {
  const keys = await keysOn(page);
  const [width, height] = await page.evaluate(() => [window.innerWidth, window.innerHeight]);
  const faults: string[] = [];
  const isSmall = width < 360;
  const least = isSmall ? 104 : width >= 412 && height > width && width < 1000 ? 127.5 : 112;
  for (const box of keys) {
    const wide = box.right - box.left;
    const high = box.bottom - box.top;
    const isMain = /^(Filled|All good [A-Z]|Setting|Save|Undo|Back$|Nothing)/.test(box.name);
    const isBottom = isMain && !/,/.test(box.name.replace(/^Save.*/, ''));
    const need = isBottom ? least : 71.5;
    if (Math.min(wide, high) < need - 0.5) {
      faults.push(
        `${where}: ${box.name} is ${wide.toFixed(0)} x ${high.toFixed(0)}, needs ${need}`,
      );
    }
    if (box.left < -0.5 || box.top < -0.5 || box.right > width + 0.5 || box.bottom > height + 0.5) {
      faults.push(`${where}: ${box.name} runs off the glass`);
    }
  }
  for (const [index, a] of keys.entries()) {
    for (const b of keys.slice(index + 1)) {
      const apartX = Math.max(a.left, b.left) - Math.min(a.right, b.right);
      const apartY = Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom);
      const apart = Math.max(apartX, apartY);
      const isPair =
        /^(Undo|Back)/.test(a.name) && /^(Filled|All good [A-Z]|Setting|Save)/.test(b.name);
      if (apart < (isPair ? 19.5 : 7.5)) {
        faults.push(`${where}: ${a.name} and ${b.name} are ${apart.toFixed(1)} px apart`);
      }
    }
  }
  const scrolls = await page.evaluate(
    () =>
      (document.scrollingElement?.scrollWidth ?? 0) > window.innerWidth ||
      (document.scrollingElement?.scrollHeight ?? 0) > window.innerHeight,
  );
  if (scrolls) faults.push(`${where}: scrolls`);
  return [...faults, ...(await spilledOn(page, where))];
}

/** Keys whose words do not stay inside them. */
async function spilledOn(page: Page, where: string): Promise<string[]> {
  return await page.evaluate(
    (at) =>
      [...document.querySelectorAll<HTMLElement>('button, article')]
        .filter((element) => element.checkVisibility())
        .flatMap((element) => {
          const box = element.getBoundingClientRect();
          const range = document.createRange();
          const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
          const spilled: string[] = [];
          while (walker.nextNode()) {
            const node = walker.currentNode;
            if (!node.textContent?.trim() || !node.parentElement?.checkVisibility()) continue;
            // Words for screen readers are clipped away.
            if (node.parentElement.closest('.said')) continue;
            range.selectNodeContents(node);
            for (const line of range.getClientRects()) {
              if (line.width === 0) continue;
              const isOut = line.left < box.left - 1 || line.right > box.right + 1;
              if (isOut || line.top < box.top - 3 || line.bottom > box.bottom + 3) {
                spilled.push(`${at}: "${node.textContent.trim()}" leaves ${element.tagName}`);
              }
            }
          }
          return spilled.slice(0, 1);
        }),
    where,
  );
}

for (const count of [1, 2, 3]) {
  test(`every key of a table of ${count} keeps its size and its distance on every glass`, async ({
    page,
  }) => {
    test.setTimeout(180_000);
    await openApp(page);
    for (const [name, across, down] of moulds) await addMould(page, name, across, down);
    await lineUp(
      page,
      moulds.slice(0, count).map(([name]) => name),
    );
    const faults: string[] = [];
    const look = async (state: string) => {
      for (const [width, height] of sizes) {
        await page.setViewportSize({ width, height });
        await page.waitForTimeout(60);
        faults.push(...(await faultsOn(page, `${width}x${height} ${state}`)));
      }
      await page.setViewportSize({ width: 360, height: 740 });
      await page.waitForTimeout(400);
    };
    await look('empty');
    await key(page, /^Filled/).click();
    await expect(key(page, /^Open now/)).toBeVisible();
    await look('setting');
    await press(page, /^Open now/);
    await look('open');
    if (await key(page, /^Mark bad/).isVisible()) await press(page, /^Mark bad/);
    await press(page, /^Cavity 2/);
    await look('map');
    await press(page, /^More/);
    await look('more');
    await press(page, /^Back/);
    await press(page, /^Pot:/);
    await look('pot');
    await press(page, /^Topped up/);
    await look('top-up');
    await press(page, /^Pot:/);
    await press(page, /^Pot:/);
    await press(page, /^New mix/);
    await look('mix');
    await press(page, /^Table/);
    await look('table');
    await press(page, /^1 Grub/);
    await look('mould');
    expect(faults).toEqual([]);
  });
}

test('the main key and Undo change sides when the person swaps them', async ({ page }) => {
  await openApp(page);
  await addMould(page, 'Grub 50', 2, 4);
  await page.goto('./#/workshop');
  await page.getByRole('button', { name: 'Swap' }).click();
  await expect(page.getByText('Main key on the left.')).toBeVisible();
  await lineUp(page, ['Grub 50']);
  for (const [width, height] of sizes) {
    await page.setViewportSize({ width, height });
    await page.waitForTimeout(60);
    const keys = await keysOn(page);
    const main = keys.find(({ name }) => name.startsWith('Filled'));
    const undo = keys.find(({ name }) => name.startsWith('Undo'));
    if (height > width)
      expect(main?.right ?? 0, `${width}x${height}`).toBeLessThan(undo?.left ?? 0);
    else expect(main?.left ?? 999, `${width}x${height}`).toBeLessThan(width / 2);
  }
});
