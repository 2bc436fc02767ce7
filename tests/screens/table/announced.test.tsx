import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { drawn } from '../../hands/drawn.ts';
import { keyDown, pageDown, pageUp } from '../../hands/pedal.ts';
import { aTable, mainSays, type TestTable } from '../../hands/table.tsx';

let table: TestTable;
let atMs = 4_000_000;

beforeEach(async () => {
  table = await aTable([
    ['Grub 50', 2, 4],
    ['Shad 7', 2, 2],
  ]);
  table.pass(1_000);
  await expect.element(page.getByRole('status')).toBeInTheDocument();
});

async function main(says: RegExp): Promise<void> {
  await mainSays(says);
  table.pass(400);
  atMs += 1_000;
  keyDown(pageDown, atMs);
}

const told = () => page.getByRole('status').first().element().textContent;

test('checklist 71: changes are told politely, each mould by its name', async () => {
  const region = page.getByRole('status').first().element();
  expect(region.getAttribute('aria-live') ?? 'polite').toBe('polite');
  expect(told()).toBe('');
  await main(/^Filled/);
  await expect.poll(told).toBe('Grub 50 setting, 3:00. Shad 7 setting, 3:00');
  await page.getByRole('button', { name: 'Open now, Shad 7' }).click();
  await expect.poll(told).toBe('Shad 7 open');
  await main(/^All good Shad 7/);
  await expect.poll(told).toBe('Shad 7 4 good');
  atMs += 1_000;
  keyDown(pageUp, atMs);
  await expect.poll(told).toBe('Shad 7 open');
  await page.getByRole('button', { name: 'Mark bad, Shad 7' }).click();
  await page.getByRole('button', { name: /^Cavity 2/ }).click();
  await main(/^Save 3 good, 1 bad/);
  await expect.poll(told).toBe('Shad 7 3 good, 1 bad');
  await page.getByRole('button', { name: 'Skip, Shad 7' }).click();
  await expect.poll(told).toBe('Shad 7 sits out');
});

test('checklist 71: a countdown is told at 1:00, at 0:10 and when it is over, and never else', async () => {
  await page.getByRole('button', { name: 'Skip, Shad 7' }).click();
  await main(/^Filled Grub 50: start 1 clock/);
  await expect.poll(told).toBe('Grub 50 setting, 3:00');
  const heard = [told()];
  for (let sec = 0; sec < 200; sec += 1) {
    table.pass(1_000);
    await drawn();
    const now = told();
    if (now !== heard.at(-1)) heard.push(now);
  }
  expect(heard).toEqual([
    'Grub 50 setting, 3:00',
    'Grub 50 1:00 left',
    'Grub 50 0:10 left',
    'Grub 50 open',
  ]);
  // The digits themselves are a timer, which no reader follows by itself (WAI-ARIA 1.2: off).
  for (const digits of page.getByRole('timer').elements()) {
    expect(digits.getAttribute('aria-live') ?? 'off').toBe('off');
  }
});

test('checklist 71: what is wrong with the phone is told once', async () => {
  table.tellAwake(false);
  await expect.poll(told).toBe('screen may sleep');
  table.tellSound(false);
  await expect.poll(told).toBe('muted');
});
