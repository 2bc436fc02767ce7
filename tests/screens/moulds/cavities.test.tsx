import { beforeEach, describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { spotsOf } from '#calc/cavity-layout.ts';
import { headOf } from '#store/heads.ts';
import { aMould } from '../../hands/evening.ts';
import { aShop, type TestShop } from '../../hands/show.tsx';
import { add, field, key, openNew, openOld, refusals } from './form-page.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

describe('the cavities', () => {
  const numbersOf = (root: HTMLElement) =>
    [...root.querySelectorAll<HTMLElement>('[role="img"] b')].map(({ textContent }) =>
      Number(textContent),
    );

  /** Four corners of 2 across and 4 down, written down by hand: the picture row by row. */
  test.each([
    ['Down first', '1', ['1 5', '2 6', '3 7', '4 8']],
    ['Down first', '4', ['4 8', '3 7', '2 6', '1 5']],
    ['Down first', '5', ['5 1', '6 2', '7 3', '8 4']],
    ['Down first', '8', ['8 4', '7 3', '6 2', '5 1']],
    ['Across first', '1', ['1 2', '3 4', '5 6', '7 8']],
    ['Across first', '2', ['2 1', '4 3', '6 5', '8 7']],
    ['Across first', '7', ['7 8', '5 6', '3 4', '1 2']],
    ['Across first', '8', ['8 7', '6 5', '4 3', '2 1']],
  ])('numbered %s with %s top left lie as drawn by hand', async (run, topLeft, plan) => {
    await openNew(shop);
    await field('Name').fill('Grub 50');
    await key(run).click();
    await key(topLeft).click();
    await expect
      .element(page.getByRole('img', { name: `Top left is cavity ${topLeft}` }))
      .toBeVisible();
    const { layout, opens } = await add(shop);
    const drawn = Array.from({ length: 4 }, () => ['', '']);
    for (const { cavity, row, col } of spotsOf(layout, opens)) {
      (drawn[row - 1] ?? [])[col - 1] = String(cavity);
    }
    expect(drawn.map((line) => line.join(' '))).toEqual(plan);
  });

  test('of a mould whose baits lie in the other half show which is top left, and can be changed', async () => {
    const mould = await aMould(shop.book, 'Turned', { rows: 4, cols: 2 }, { opens: 'mirrored' });
    await openOld(shop, mould);
    await expect.element(key('5')).toHaveAttribute('aria-pressed', 'true');
    await key('1').click();
    await key('Save the changes').click();
    await expect
      .poll(async () => (await headOf(shop.book, 'moulds', mould.id))?.opens)
      .toBe('same');
  });

  test('can lie anywhere: a press gives the next number, a press on a number takes it out', async () => {
    await openNew(shop);
    await field('Name').fill('Odd one');
    await key('Anywhere').click();
    await key('Empty, row 2, column 3').click();
    await key('Empty, row 2, column 6').click();
    await key('Empty, row 7, column 4').click();
    await expect.element(key('Cavity 3, row 7, column 4')).toBeVisible();
    await key('Cavity 1, row 2, column 3').click();
    await expect.element(key('Cavity 2, row 7, column 4')).toBeVisible();
    const { layout, opens } = await add(shop);
    expect(spotsOf(layout, opens)).toEqual([
      { cavity: 1, row: 1, col: 1 },
      { cavity: 2, row: 2, col: 1 },
    ]);
  });

  test('are placed by keyboard alone', async () => {
    await openNew(shop);
    await key('Anywhere').click();
    key('Empty, row 1, column 1').element().focus();
    await userEvent.keyboard('{Enter}{Tab} ');
    await expect.element(key('Cavity 1, row 1, column 1')).toBeVisible();
    await expect.element(key('Cavity 2, row 1, column 2')).toBeVisible();
  });

  test('that lie nowhere are refused in a sentence', async () => {
    await openNew(shop);
    await field('Name').fill('Odd one');
    await key('Anywhere').click();
    await key('Add this mould').click();
    await expect.poll(refusals).toEqual(['A mould has at least one cavity.']);
  });

  test('are kept in both ways while one changes one’s mind', async () => {
    const root = await openNew(shop);
    await key('One across more').click();
    await key('Anywhere').click();
    await key('Empty, row 1, column 1').click();
    await key('Rows and columns').click();
    await expect.poll(() => numbersOf(root).length).toBe(12);
    await key('Anywhere').click();
    await expect.element(key('Cavity 1, row 1, column 1')).toBeVisible();
  });
});
