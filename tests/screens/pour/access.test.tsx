import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { SessionId } from '#model/entry.ts';
import { DayScreen } from '#screens/pour/DayScreen.tsx';
import { PourScreen } from '#screens/pour/PourScreen.tsx';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { aColourway, aMould, pourEvening, seven } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;
let sessionId: SessionId;

beforeEach(async () => {
  shop = await aShop();
  const mould = await aMould(shop.book, 'Leaf tail', { rows: 2, cols: 6 });
  const colourway = await aColourway(shop.book, 'Ink/rust', '#1c2733', '#8a3b1d');
  const fills = ['sgggggggggsg', 'ggnnggggggcg', 'gggggggggggg', 'ggggggdggggg'].map((gave) => ({
    mould,
    gave,
  }));
  await pourEvening(shop.book, { fills, colourway, at: seven - 86_400_000 });
  sessionId = await pourEvening(shop.book, { fills, colourway });
});

test.each([
  ['Pour', () => <PourScreen />, 'Pour'],
  ['the day', () => <DayScreen day="2026-11-24" />, 'Tue 24 Nov'],
  ['the session', () => <SessionScreen sessionId={sessionId} />, 'Tue 24 Nov'],
])(
  '%s has no fault that axe knows, in either palette, and fits 320 px',
  async (_, screen, head) => {
    await page.viewport(320, 568);
    const root = show(shop, screen());
    await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent(head);
    for (const palette of ['chalk', 'lamp']) {
      document.documentElement.dataset.theme = palette;
      expect(await faults(root), palette).toEqual([]);
    }
    expect(isNoWider()).toBe(true);
  },
);

test('the cavity map of a wide mould fits 320 px with cells to be hit, and is free of faults', async () => {
  await page.viewport(320, 568);
  document.documentElement.dataset.theme = 'chalk';
  const root = show(shop, <SessionScreen sessionId={sessionId} />);
  await page.getByRole('button', { name: /^Check now/ }).click();
  const cells = page.getByRole('button', { name: /^Cavity/ });
  await expect.poll(() => cells.length).toBe(12);
  for (const cell of cells.elements()) {
    const { width, height, right } = cell.getBoundingClientRect();
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(48);
    expect(right).toBeLessThanOrEqual(320);
  }
  expect(await faults(root)).toEqual([]);
  expect(isNoWider()).toBe(true);
});
