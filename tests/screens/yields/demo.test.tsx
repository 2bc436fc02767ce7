import { beforeAll, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { YieldsScreen } from '#screens/yields/YieldsScreen.tsx';
import { fillDemo } from '#store/demo.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

/*
 * The outside truth of these tests is what was planted in the demo shop: demo/truths.ts, in the
 * words of demo/README.md.
 */
let shop: TestShop;

beforeAll(async () => {
  shop = await aShop();
  const bytes = await (await fetch('/demo-shop.bin')).arrayBuffer();
  await fillDemo(shop.book, bytes, { at: shop.clock.now(), zone: 'Europe/Berlin' });
  await page.viewport(360, 740);
});

const key = (name: string | RegExp) => page.getByRole('button', { name });
const says = (words: string | RegExp) => expect.element(page.getByText(words)).toBeVisible();
const rows = () => page.getByRole('main').getByRole('list').getByRole('listitem').elements();

describe('yields side by side', () => {
  test('no mould differs from the rest, and the least to be expected stands first', async () => {
    show(shop, <YieldsScreen />);
    await says('No mould differs from the rest by more than luck would do.');
    const least = rows().map((row) => Number(/expect (\d+) to/.exec(row.textContent)?.[1]));
    expect(least).toHaveLength(7);
    expect(least.toSorted((a, b) => a - b)).toEqual(least);
    await says('1653 of 1816 good');
    await says('227 shots, cold: 198 of 384');
  });

  test.each([
    ['Colours', 'Dusk gives fewer good baits than the rest, more than luck would do.', 10],
    ['Injectors', 'Green handle gives fewer good baits than the rest, more than luck would do.', 2],
    ['Heats', 'No heat differs from the rest by more than luck would do.', 4],
    ['Sessions', /^One session differs from the next by luck alone/, 20],
    ['Days', /^One day differs from the next by luck alone/, 20],
  ])('%s: %s', async (by, words, count) => {
    show(shop, <YieldsScreen />);
    await key(by).click();
    await says(words);
    await expect.poll(() => rows().length).toBe(count);
  });

  test('shorts go with the worse injector and dents with opening sooner, nothing is said to cause', async () => {
    const root = show(shop, <YieldsScreen />);
    await says('Short fills go with Green handle.');
    await says('Dents go with opening sooner.');
    await says(/No sign for time shut or heats of the pot\./);
    await says(/To be sure, pour 10 shots with each injector, taking turns\./);
    expect(root.textContent).not.toMatch(/causes|because of/);
  });

  test('two sessions stand side by side with what differed alone', async () => {
    show(shop, <YieldsScreen />);
    await key('Sessions').click();
    const keys = key(/^Side by side/);
    await expect.poll(() => keys.elements().length).toBe(20);
    await keys.nth(0).click();
    await keys.nth(1).click();
    await expect.element(page.getByRole('columnheader', { name: 'What differed' })).toBeVisible();
    const table = page.getByRole('table').first();
    const found = table.getByRole('row').elements();
    expect(found.length).toBeGreaterThan(2);
    for (const row of found.slice(1)) {
      const [, a, b] = [...row.children].map((cell) => cell.textContent);
      expect(a).not.toBe(b);
    }
    await says(/^Bad of warm baits: \d+ of \d+, then \d+ of \d+\./);
  });

  test('the scale tells whether all bad ones were marked', async () => {
    show(shop, <YieldsScreen />);
    await says(/^You marked \d+ baits bad, about \d+ g\./);
    await says('Set what the scale shows.');
    await key('Less').click();
    await says('That fits what you marked.');
    for (let press = 0; press < 20; press += 1) await key('More').click();
    await says(
      /bad baits? more than marked\. The yields then look better than they are\. \d+ good is then nearer than \d+\.$/,
    );
  });
});
