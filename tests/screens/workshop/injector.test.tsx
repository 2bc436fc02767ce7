import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { InjectorId } from '#model/gear.ts';
import { InjectorFactsScreen } from '#screens/workshop/InjectorFactsScreen.tsx';
import { freshId } from '#store/book.ts';
import { addHead, headOf, headsOf } from '#store/heads.ts';
import { changeSettings } from '#store/settings.ts';
import { seven } from '../../hands/evening.ts';
import { aSentence, noNumbers, oddNames } from '../../hands/hostile.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { expectWithin } from '../../hands/within.ts';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const key = (name: string) => page.getByRole('button', { name, exact: true });
const field = (label: string) => page.getByLabelText(label, { exact: true });
const saved = () => headsOf(shop.book, 'injectors');
const refusals = () =>
  page
    .getByRole('alert')
    .elements()
    .map(({ textContent }) => textContent ?? '');

async function openNew() {
  show(shop, <InjectorFactsScreen injectorId={null} />);
  await expect.element(key('Add this injector')).toBeVisible();
}

async function add() {
  await key('Add this injector').click();
  await expect.poll(() => window.location.hash).toBe('#/workshop');
  return (await saved())[0];
}

// US measures: 231 cubic inches to the gallon (NIST Handbook 44, App. C).
test.each([
  ['cup', 'Holds, in cups', '0,5', 118.294],
  ['floz', 'Holds, in fl oz', '4', 118.294],
  ['mL', 'Holds, in mL', '120', 120],
] as const)('its capacity is typed in %s', async (volumeUnit, label, text, expectedMl) => {
  await changeSettings(shop.book, { volumeUnit }, seven);
  await openNew();
  await field('Name').fill('Long one');
  await field(label).fill(text);
  const injector = await add();
  expectWithin(injector?.capacityMl ?? 0, expectedMl, 0.001);
  expect(injector).toMatchObject({ name: 'Long one', boreMm: null, isTwin: false });
});

test('bore and barrels are kept, and it is added once', async () => {
  await openNew();
  await field('Name').fill('Twin');
  await field('Holds, in cups').fill('1');
  await field('Bore in mm').fill('25,4');
  await key('Twin').click();
  await key('Add this injector').dblClick();
  await expect.poll(() => window.location.hash).toBe('#/workshop');
  expect(await saved()).toMatchObject([{ boreMm: 25.4, isTwin: true }]);
  expect(await saved()).toHaveLength(1);
});

describe('a refusal', () => {
  test.each(noNumbers)('meets %s beside each field, and nothing typed is lost', async (_, text) => {
    await openNew();
    await field('Name').fill('Long one');
    await field('Holds, in cups').fill(text);
    await field('Bore in mm').fill(text);
    await key('Add this injector').click();
    await expect.poll(() => refusals().length).toBe(2);
    for (const sentence of refusals()) expect(sentence).toMatch(aSentence);
    await expect.element(field('Holds, in cups')).toHaveValue(text);
    await expect.element(field('Bore in mm')).toHaveValue(text);
    expect(await saved()).toEqual([]);
  });

  test.each([
    ['Name', '', 'Give it a name.'],
    ['Name', 'x'.repeat(61), 'Keep the name to 60 letters.'],
    ['Holds, in cups', '', 'Write a number, like 4 or 4.5.'],
    ['Holds, in cups', '-1', 'Write a number, like 4 or 4.5.'],
    ['Holds, in cups', '0', 'It must hold something.'],
    ['Holds, in cups', '500', 'More than 100 litres cannot be.'],
    ['Bore in mm', '-38', 'At least 3 mm.'],
    ['Bore in mm', '2,9', 'At least 3 mm.'],
    ['Bore in mm', '151', 'At most 150 mm.'],
  ])('of %s “%s” says: %s', async (label, text, sentence) => {
    await openNew();
    await field('Name').fill('Long one');
    await field('Holds, in cups').fill('1');
    await field(label).fill(text);
    await key('Add this injector').click();
    await expect.poll(refusals).toEqual([sentence]);
    await expect.element(field(label)).toHaveFocus();
    expect(await saved()).toEqual([]);
  });

  test.each(oddNames)('is not what the name %s gets', async (name) => {
    await openNew();
    await field('Name').fill(name);
    await field('Holds, in cups').fill('1');
    expect((await add())?.name).toBe(name);
  });
});

describe('an injector of the shop', () => {
  const anInjector = () =>
    addHead(
      shop.book,
      'injectors',
      { name: 'Long one', capacityMl: 100, boreMm: 38, isTwin: false },
      seven,
    );

  test('keeps its exact capacity when another fact is changed', async () => {
    const { id } = await anInjector();
    show(shop, <InjectorFactsScreen injectorId={id} />);
    await expect.element(field('Holds, in cups')).toHaveValue('0.42');
    await field('Bore in mm').fill('');
    await key('Save the changes').click();
    await expect
      .poll(() => headOf(shop.book, 'injectors', id))
      .toMatchObject({ capacityMl: 100, boreMm: null });
  });

  test('is taken off the list and brought back', async () => {
    const { id } = await anInjector();
    show(shop, <InjectorFactsScreen injectorId={id} />);
    await key('Take off the list').click();
    await expect.poll(() => window.location.hash).toBe('#/workshop');
    expect(await saved()).toEqual([]);
    show(shop, <InjectorFactsScreen injectorId={id} />);
    await key('Bring back').click();
    await expect.poll(() => saved().then((all) => all.length)).toBe(1);
  });

  test('that is not in the logbook is said to be missing', async () => {
    show(shop, <InjectorFactsScreen injectorId={freshId<InjectorId>(seven)} />);
    await expect.element(page.getByText('This injector is not in this logbook.')).toBeVisible();
  });
});
