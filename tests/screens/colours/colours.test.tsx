import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { ColourwayId } from '#model/gear.ts';
import { ColourFactsScreen } from '#screens/colours/ColourFactsScreen.tsx';
import { ColoursScreen } from '#screens/colours/ColoursScreen.tsx';
import { freshId } from '#store/book.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { aColourway, aMould, pourEvening, seven } from '../../hands/evening.ts';
import { oddNames } from '../../hands/hostile.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

const day = 86_400_000;
let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const key = (name: string) => page.getByRole('button', { name, exact: true });
const field = (label: string) => page.getByLabelText(label, { exact: true });
const saved = () => headsOf(shop.book, 'colourways');
const refusals = () =>
  page
    .getByRole('alert')
    .elements()
    .map(({ textContent }) => textContent ?? '');

describe('the wall of colours', () => {
  test('has the last poured first, each with its day, and those never poured last', async () => {
    const mould = await aMould(shop.book, 'Shad 7');
    const peat = await aColourway(shop.book, 'Peat', '#5b4029');
    const pearl = await aColourway(shop.book, 'Pearl', '#ece7d8');
    await aColourway(shop.book, 'Never', '#6a5d7b');
    const pour = (colourway: typeof peat, at: number) =>
      pourEvening(shop.book, { colourway, at, fills: [{ mould, gave: 'gggg' }] });
    await pour(peat, seven - 400 * day);
    await pour(peat, seven - 2 * day);
    await pour(pearl, seven - day);
    show(shop, <ColoursScreen />);
    const rows = page.getByRole('listitem');
    await expect
      .poll(() => rows.elements().map(({ textContent }) => textContent))
      .toEqual(['PearlMon 23 Nov', 'PeatSun 22 Nov', 'Nevernot poured yet']);
    await expect
      .element(page.getByRole('link', { name: /^Pearl/ }))
      .toHaveAttribute('href', `#/colour/${pearl.id}`);
  });

  test('shows one colour whole and a laminate as its two halves, left to right', async () => {
    const mould = await aMould(shop.book, 'Shad 7');
    const pair = await aColourway(shop.book, 'Pair', '#ece7d8', '#1c2733');
    await pourEvening(shop.book, { colourway: pair, fills: [{ mould, gave: 'gggg' }] });
    await aColourway(shop.book, 'Plain', '#5b4029');
    show(shop, <ColoursScreen />);
    const seen = () =>
      [...document.querySelectorAll('li')].map((card) =>
        [...card.querySelectorAll('i')].map((half) => getComputedStyle(half).backgroundColor),
      );
    await expect
      .poll(seen)
      .toEqual([['rgb(236, 231, 216)', 'rgb(28, 39, 51)'], ['rgb(91, 64, 41)']]);
    const [left, right] = [...document.querySelectorAll('li:first-child i')];
    expect(left?.getBoundingClientRect().right).toBeLessThanOrEqual(
      right?.getBoundingClientRect().left ?? 0,
    );
  });

  test('leads to a new one', async () => {
    show(shop, <ColoursScreen />);
    await expect
      .element(page.getByRole('link', { name: 'New colour' }))
      .toHaveAttribute('href', '#/colour-facts/new');
  });
});

describe('the form of a colour', () => {
  const openNew = async () => {
    const root = show(shop, <ColourFactsScreen colourwayId={null} />);
    await expect.element(key('Add this colour')).toBeVisible();
    return root;
  };
  const add = async () => {
    await key('Add this colour').click();
    await expect.poll(() => window.location.hash).toBe('#/colours');
    return (await saved())[0];
  };

  test('takes one colour by its name and look', async () => {
    await openNew();
    await field('Name').fill(' Peat brown 3 ');
    await field('It looks like').fill('#5b4029');
    expect(await add()).toMatchObject({
      name: 'Peat brown 3',
      sides: [{ name: 'Peat brown 3', swatch: '#5b4029' }],
    });
  });

  test('takes two sides, A left and B right, once', async () => {
    await openNew();
    await field('Name').fill('Pearl/Ink');
    await key('Two sides').click();
    await field('Side A, left').fill('Pearl');
    await field('Side A looks like').fill('#ece7d8');
    await field('Side B, right').fill('Ink');
    await field('Side B looks like').fill('#1c2733');
    await key('Add this colour').dblClick();
    await expect.poll(() => window.location.hash).toBe('#/colours');
    expect(await saved()).toMatchObject([
      {
        sides: [
          { name: 'Pearl', swatch: '#ece7d8' },
          { name: 'Ink', swatch: '#1c2733' },
        ],
      },
    ]);
    expect(await saved()).toHaveLength(1);
  });

  test('refuses what has no name beside each field, and keeps the rest', async () => {
    await openNew();
    await key('Two sides').click();
    await field('Side A, left').fill('x'.repeat(61));
    await key('Add this colour').click();
    await expect
      .poll(refusals)
      .toEqual(['Give it a name.', 'Keep the name to 60 letters.', 'Give it a name.']);
    await expect.element(field('Side A, left')).toHaveValue('x'.repeat(61));
    await expect.element(field('Side B, right')).toHaveAccessibleDescription('Give it a name.');
    await expect.element(field('Name')).toHaveFocus();
    expect(await saved()).toEqual([]);
  });

  test('keeps a second side while one changes one’s mind, and asks for one name only', async () => {
    await openNew();
    await key('Two sides').click();
    await field('Side B, right').fill('Ink');
    await key('One colour').click();
    await key('Add this colour').click();
    await expect.poll(refusals).toEqual(['Give it a name.']);
    await key('Two sides').click();
    await expect.element(field('Side B, right')).toHaveValue('Ink');
  });

  test.each(oddNames)('takes the name %s and shows it letter by letter', async (name) => {
    await openNew();
    await field('Name').fill(name);
    const colourway = await add();
    expect(colourway?.name).toBe(name);
    const root = show(shop, <ColoursScreen />);
    await expect.poll(() => root.querySelector('b')?.textContent).toBe(name);
    expect(root.querySelector('img')).toBeNull();
  });

  test('changes a colour, and takes it off the list and back', async () => {
    const colourway = await aColourway(shop.book, 'Pair', '#ece7d8', '#1c2733');
    const open = () => show(shop, <ColourFactsScreen colourwayId={colourway.id} />);
    open();
    await expect.element(field('Side B, right')).toHaveValue('Pair B');
    await key('One colour').click();
    await key('Save the changes').click();
    await expect
      .poll(async () => (await headOf(shop.book, 'colourways', colourway.id))?.sides)
      .toEqual([{ name: 'Pair', swatch: '#ece7d8' }]);
    open();
    await key('Take off the list').click();
    await expect.poll(saved).toEqual([]);
    open();
    await key('Bring back').click();
    await expect.poll(() => saved().then((all) => all.length)).toBe(1);
  });

  test('of a colour that is not in the logbook adds no other', async () => {
    show(shop, <ColourFactsScreen colourwayId={freshId<ColourwayId>(seven)} />);
    await expect.element(page.getByText('This colour is not in this logbook.')).toBeVisible();
    await expect.element(field('Name')).not.toBeInTheDocument();
  });
});
