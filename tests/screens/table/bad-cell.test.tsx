import { expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { drawn } from '../../hands/drawn.ts';
import { glasses } from '../../hands/glass.ts';
import { aTable } from '../../hands/table.tsx';

const key = (name: RegExp) => page.getByRole('button', { name }).first();

/** What lies on something else in the cells that are marked bad: number, cross and word, each with its own place. */
function overlaps(where: string): string[] {
  return [...document.querySelectorAll('button[data-state="bad"]')].flatMap((cell) => {
    const parts = [...cell.querySelectorAll('b, svg, span')].filter((one) => one.checkVisibility());
    return parts.flatMap((one, index) =>
      parts.slice(index + 1).flatMap((other) => {
        const [a, b] = [wordsOf(one), wordsOf(other)];
        const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        if (wide < 1 || high < 1) return [];
        return [
          `${where}: ${one.textContent || 'the cross'} on ${other.textContent || 'the cross'}`,
        ];
      }),
    );
  });
}

/** Where the letters of an element lie, not the room it was given: a line of type is free for a fifth above and below. */
function wordsOf(one: Element): DOMRect {
  if (!one.textContent) return one.getBoundingClientRect();
  const range = document.createRange();
  range.selectNodeContents(one);
  const { left, top, width, height } = range.getBoundingClientRect();
  return new DOMRect(left, top + height / 5, width, (height * 3) / 5);
}

test.for([
  [1, 2],
  [2, 1],
  [3, 2],
  [4, 1],
  [4, 2],
  [5, 2],
  [6, 2],
  [4, 4],
] as const)(
  'in a mould of %i x %i number, cross and word of a bad cavity lie beside each other on every glass',
  { timeout: 60_000 },
  async ([rows, cols]) => {
    await page.viewport(360, 740);
    const table = await aTable([
      ['Grub 50', rows, cols],
      ['Shad 7', 2, 2],
    ]);
    table.pass(1_000);
    await key(/^Filled/).click();
    table.pass(1_000);
    await key(/^Open now, Grub/).click();
    table.pass(1_000);
    await key(/^Mark bad, Grub/).click();
    table.pass(1_000);
    await key(/^Cavity 1\b/).click();
    await expect.element(key(/^Cavity 1, Short/)).toBeVisible();
    const found: string[] = [];
    for (const [width, height] of [...glasses, [915, 412] as const]) {
      await page.viewport(width, height);
      await drawn();
      found.push(...overlaps(`${width}x${height}`));
    }
    expect(found).toEqual([]);
  },
);
