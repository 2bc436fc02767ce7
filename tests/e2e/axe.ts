import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from '@playwright/test';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** What axe finds on the page as it stands, in these palettes; at the table contrast must be 7:1. */
export async function violationsOn(
  page: Page,
  where: string,
  isTable: boolean,
  palettes: readonly string[] = ['chalk', 'lamp'],
): Promise<string[]> {
  const found: string[] = [];
  for (const palette of palettes) {
    await page.evaluate((theme) => {
      document.documentElement.dataset.theme = theme;
    }, palette);
    await page.evaluate(axe);
    const violations = await page.evaluate(
      async ({ tags, table }) => {
        const { axe: run } = window as unknown as {
          axe: {
            run(
              options: object,
            ): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
          };
        };
        const { violations: all } = await run.run({
          runOnly: { type: 'tag', values: tags },
          rules: {
            'target-size': { enabled: true },
            // Names begin with the words on the screen.
            'label-content-name-mismatch': { enabled: true },
            'color-contrast-enhanced': { enabled: table },
          },
        });
        return all.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`);
      },
      { tags: rules, table: isTable },
    );
    found.push(...violations.map((violation) => `${where} ${palette} ${violation}`));
  }
  await page.evaluate(() => {
    document.documentElement.dataset.theme = 'chalk';
  });
  return found;
}
