import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Mould } from '#model/mould.ts';
import { aMould } from '../../hands/evening.ts';
import { aShop, type TestShop } from '../../hands/show.tsx';
import { key, openSession, row, rows } from './session-page.tsx';

let shop: TestShop;
let grub: Mould;

beforeEach(async () => {
  shop = await aShop();
  grub = await aMould(shop.book, 'Grub 50');
});

const opened = (gave: readonly string[]) => openSession(shop, grub, gave);

describe('notes', () => {
  test('are shown letter by letter, whatever they hold', async () => {
    await opened(['gggg']);
    const hostile = '<img src=x onerror="window.hurt=1"> </p>{{1+1}} &lt;b&gt;';
    await key('Add a note').click();
    await page.getByLabelText('Note').fill(hostile);
    await key('Save note').click();
    await expect.element(page.getByText(hostile, { exact: true })).toBeVisible();
    expect(document.querySelector('img')).toBeNull();
    expect('hurt' in window).toBe(false);
  });

  test('without a word are refused', async () => {
    await opened(['gggg']);
    await key('Add a note').click();
    await key('Save note').click();
    await expect
      .element(page.getByLabelText('Note'))
      .toHaveAccessibleDescription('Write something first.');
  });
});

describe('the list', () => {
  test('begins with twelve and unfolds on demand', async () => {
    await opened(Array.from({ length: 14 }, () => 'gggg'));
    await expect.poll(() => rows().length).toBe(12);
    // 14 fills, 14 outcomes, begun, moulds, mix, finished.
    await key('Show all 32 entries').click();
    await expect.poll(() => rows().length).toBe(32);
  });

  test('a shot far down is found by its picture', async () => {
    await opened(Array.from({ length: 14 }, (_, shot) => (shot === 0 ? 'sggg' : 'gggg')));
    await expect.element(row('1 bad')).not.toBeInTheDocument();
    await key('Grub 50, shot 1: 1 bad of 4, cold').click();
    await expect.element(row('1 bad')).toBeInViewport();
    await expect.element(row('1 bad')).toHaveFocus();
  });
});
