import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Mould } from '#model/mould.ts';
import { entriesOf } from '#store/sessions.ts';
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

  test('sent twice at once are written once, and what is typed meanwhile is the next one', async () => {
    const sessionId = await opened(['gggg']);
    await key('Add a note').click();
    const field = page.getByLabelText('Note', { exact: true });
    await field.fill('Vents were blocked.');
    const save = key('Save note').element() as HTMLElement;
    const input = field.element() as HTMLTextAreaElement;
    // All in one turn: nothing can be on disk before the next letters come.
    save.click();
    save.click();
    input.value = 'Opened them.';
    input.dispatchEvent(new InputEvent('input', { bubbles: true }));
    const noted = async () =>
      (await entriesOf(shop.book, sessionId)).flatMap(({ said }) =>
        said.kind === 'noted' ? [said.text] : [],
      );
    await expect.element(row('Vents were blocked.')).toBeVisible();
    expect(await noted()).toEqual(['Vents were blocked.']);
    await expect.element(field).toHaveValue('Opened them.');
    await key('Save note').click();
    await expect.element(field).not.toBeInTheDocument();
    expect(await noted()).toEqual(['Vents were blocked.', 'Opened them.']);
  });
});

describe('a line', () => {
  test('whose key is pressed twice at once is taken back once, and comes back at one press', async () => {
    const sessionId = await opened(['gggg', 'gsgg']);
    const { length } = await entriesOf(shop.book, sessionId);
    await key(/^Put right: 3 good, 1 bad/).click();
    const off = key('Take back').element() as HTMLElement;
    off.click();
    off.click();
    await expect.element(page.getByRole('deletion')).toBeVisible();
    await key(/^Bring back/).click();
    await expect.element(page.getByRole('deletion')).not.toBeInTheDocument();
    expect(await entriesOf(shop.book, sessionId)).toHaveLength(length + 2);
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
