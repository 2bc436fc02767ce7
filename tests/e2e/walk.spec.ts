import { expect, type Page } from '@playwright/test';
import { violationsOn } from './axe.ts';
import { figure } from './figure.ts';
import { recordsOf, test } from './site.ts';

/** The id of the newest record of a table of the demo shop. */
async function newest(page: Page, table: string): Promise<string> {
  const all = await recordsOf<{ id?: string; sessionId?: string }>(page, table, 'warmshot-demo');
  const last = all.at(-1);
  return String(last?.id ?? last?.sessionId);
}

test('every page of a full shop keeps to the content policy, asks nobody else and has no fault that axe knows', async ({
  page,
  site,
  heard,
}) => {
  test.setTimeout(300_000);
  await page.goto(`${site.url}?demo#/moulds`);
  await expect(page.getByText('Grub 50').first()).toBeVisible();
  const ids = Object.fromEntries(
    await Promise.all(
      ['moulds', 'sealed', 'colourways', 'mixes', 'photos', 'materials', 'injectors'].map(
        async (table) => [table, await newest(page, table)] as const,
      ),
    ),
  );
  const pages = [
    'pour',
    'line-up',
    `line-up/${ids.sealed}`,
    'cautions',
    `session/${ids.sealed}`,
    'moulds',
    'yields',
    `mould/${ids.moulds}`,
    `mould-facts/${ids.moulds}`,
    'colours',
    `colour/${ids.colourways}`,
    `colour-facts/${ids.colourways}`,
    `mix-facts/${ids.colourways}`,
    `drops/${ids.mixes}/500`,
    `share-mix/${ids.mixes}`,
    'take-mix/',
    'ideas',
    `photos/${ids.colourways}`,
    `photo/${ids.photos}`,
    'find-photo',
    'shelf',
    `card/${ids.materials}`,
    `material/${ids.materials}`,
    `material-facts/${ids.materials}`,
    'bait-cost',
    'workshop',
    'glove-check',
    'sound-check',
    'pedal-check',
    'keep',
    'open-copy',
    'tables',
    `injector-facts/${ids.injectors}`,
  ];
  const faults: string[] = [];
  // So tall that nothing lies under the bar of the places, where a target looks smaller than it is.
  await page.setViewportSize({ width: 360, height: 8_000 });
  for (const address of pages) {
    await page.goto(`${site.url}?demo#/${address}`);
    await expect(page.locator('h1').first(), address).toBeVisible();
    await expect(page.getByRole('alert'), address).toHaveCount(0);
    faults.push(...(await violationsOn(page, address, false)));
  }
  figure({
    drill: 'Every page of a full shop: content policy and accessibility',
    required: '0 policy breaks, errors or requests elsewhere; 0 faults of axe, both palettes',
    reached: `${pages.length} pages: ${heard.length} and ${faults.length}`,
    isMet: heard.length === 0 && faults.length === 0,
  });
  expect(faults).toEqual([]);
  expect(heard).toEqual([]);
});
