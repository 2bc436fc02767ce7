import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { SettingsFacts } from '#store/settings.ts';
import { keyDown, pageDown } from '../../hands/pedal.ts';
import { show } from '../../hands/show.tsx';
import { aTable, mainKey, mainSays, type TestTable } from '../../hands/table.tsx';

let table: TestTable;
let atMs = 200_000;

async function open(settings: Partial<SettingsFacts> = {}): Promise<void> {
  table = await aTable(
    [
      ['Grub 50', 2, 4],
      ['Shad 7', 2, 2],
    ],
    settings,
  );
  table.pass(1_000);
}

/** Presses the main key by pedal. */
async function main(says: RegExp): Promise<void> {
  await mainSays(says);
  table.pass(400);
  atMs += 1_000;
  keyDown(pageDown, atMs);
}

const touch = () => document.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));
const armedNow = () => table.armed.at(-1) ?? [];
/** Until the first mould is ready, as the card says. */
const leftMs = () => Math.min(...armedNow().map(({ inMs }) => inMs));
const sleepAndWake = () => document.dispatchEvent(new Event('visibilitychange'));

beforeEach(async () => {
  await page.viewport(360, 740);
});

describe('the bell', () => {
  beforeEach(async () => {
    await open();
    await main(/^Filled/);
    await mainSays(/^Setting/);
    await expect.poll(() => armedNow().length).toBe(2);
  });

  test('is armed for every mould, for the time at which its card runs out', async () => {
    expect(armedNow().map(({ place }) => place)).toEqual([1, 2]);
    const timer = page.getByRole('article', { name: /^Mould 1/ }).getByRole('timer');
    const [minutes = 0, seconds = 0] = (timer.element().textContent ?? '').split(':').map(Number);
    expect(armedNow()[0]?.inMs).toBe((minutes * 60 + seconds) * 1_000);
  });

  test('is not armed for a mould that was opened by hand', async () => {
    await page.getByRole('button', { name: 'Open now, Shad 7' }).click();
    await expect.poll(() => armedNow().map(({ place }) => place)).toEqual([1]);
  });

  test('is armed anew for the time that is left when the page wakes, or sound does', async () => {
    const before = leftMs();
    table.pass(20_000);
    sleepAndWake();
    expect(leftMs()).toBe(before - 20_000);
    table.pass(10_000);
    table.tellSound(true);
    await expect.poll(leftMs).toBe(before - 30_000);
  });

  test('is hushed by any touch once it rings, and stays so; not by one that came too soon', () => {
    touch();
    table.pass(leftMs() + 200);
    touch();
    expect(table.hushed).toEqual([]);
    table.pass(1_000);
    touch();
    touch();
    expect(table.hushed).toEqual([1, 2]);
    sleepAndWake();
    expect(armedNow()).toEqual([]);
  });

  test('is hushed by the pedal too', () => {
    table.pass(leftMs() + 2_000);
    atMs += 1_000;
    keyDown({ key: 'a', code: 'KeyA' }, atMs);
    expect(table.hushed).toEqual([1, 2]);
  });

  test('rings on for a mould that comes ready after another was answered', async () => {
    await page.getByRole('button', { name: 'Open now, Grub 50' }).click();
    await expect.poll(() => armedNow().map(({ place }) => place)).toEqual([2]);
    touch();
    expect(table.hushed).toEqual([]);
    expect(armedNow().map(({ place }) => place)).toEqual([2]);
  });

  test('is taken back when the table is left', async () => {
    show(table.shop, <p>Elsewhere</p>);
    await expect.poll(armedNow).toEqual([]);
  });
});

test('sound is asked for once, and told where the music plays', async () => {
  await open({ music: 'this-phone' });
  expect(table.asked).toEqual(['this-phone']);
});

test('the tick comes when the press is on disk, not before', async () => {
  await open();
  const stored: Promise<number>[] = [];
  table.shop.sound.logged = () => {
    stored.push(table.entries().then(({ length }) => length));
  };
  await main(/^Filled/);
  await mainSays(/^Setting/);
  expect(await Promise.all(stored)).toEqual([1]);
});

test('a press that cannot be stored is answered by the low double', async () => {
  await open();
  await mainSays(/^Filled/);
  table.shop.book.db.close();
  await main(/^Filled/);
  await expect.poll(() => table.heard).toEqual(['wrong way']);
  await expect.element(page.getByRole('alert')).toHaveTextContent('Not saving. Free some space.');
});

describe('the word muted', () => {
  const line = () => page.getByRole('region', { name: 'This evening' });

  test('stands in the round line exactly while sound cannot play', async () => {
    await open();
    expect(line().element().textContent).not.toContain('muted');
    table.tellSound(false);
    await expect.element(line().getByText('muted')).toBeVisible();
    table.tellSound(true);
    await expect.poll(() => line().element().textContent).not.toContain('muted');
  });

  test('stands there for somebody who watches instead, and sound is not even asked for', async () => {
    await open({ hearing: 'watches' });
    await expect.element(line().getByText('muted')).toBeVisible();
    expect(table.asked).toEqual([]);
  });

  test.each([320, 360, 412])(
    'has room on glass of %i px, with all else that may be wrong beside it',
    async (widthPx) => {
      await page.viewport(widthPx, 740);
      await open();
      table.tellSound(false);
      table.tellAwake(false);
      await expect.element(line().getByText('muted')).toBeVisible();
      await expect.element(line().getByText('screen may sleep')).toBeVisible();
      expect(spillsIn(line().element())).toBe(false);
      await main(/^Filled/);
      await mainSays(/^Setting/);
      table.pass(600_000);
      await page.getByRole('button', { name: /^Check later, Grub/ }).click();
      await expect.element(line().getByText('8 not checked')).toBeVisible();
      await expect.element(line().getByText('muted')).toBeVisible();
      await expect.element(line().getByText('may sleep')).toBeVisible();
      expect(spillsIn(line().element())).toBe(false);
      expect(mainKey()).toBeVisible();
    },
  );
});

test.each([
  [360, 740],
  [740, 360],
  [915, 412],
  [1024, 768],
])(
  'the words screen may sleep stand in the round line at %i x %i, until the lock is back',
  async (...size) => {
    await page.viewport(...size);
    await open();
    for (const can of [true, false]) {
      table.tellSound(can);
      table.tellAwake(false);
      const words = page
        .getByRole('region', { name: 'This evening' })
        .getByText('screen may sleep');
      await expect.element(words).toBeVisible();
      const [box, glass] = [words.element().getBoundingClientRect(), keysBox()];
      expect(box.bottom).toBeLessThanOrEqual(size[1]);
      expect(box.right).toBeLessThanOrEqual(size[0]);
      expect(glass.some((key) => isOver(box, key))).toBe(false);
      table.tellAwake(true);
      await expect.element(words).not.toBeInTheDocument();
    }
  },
);

const keysBox = () =>
  [...document.querySelectorAll('button, article')].map((key) => key.getBoundingClientRect());
const isOver = (a: DOMRect, b: DOMRect) =>
  a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;

/** Whether two words of a line touch, or one leaves it. */
function spillsIn(element: Element): boolean {
  const box = element.getBoundingClientRect();
  const words = [...element.children]
    .map((word) => word.getBoundingClientRect())
    .filter(({ width }) => width > 0);
  return words.some(
    ({ left, right }, index) =>
      left < box.left - 1 ||
      right > box.right + 1 ||
      (index > 0 && left - (words[index - 1]?.right ?? 0) < 4),
  );
}
