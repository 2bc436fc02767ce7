import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Material } from '#model/material.ts';
import { MaterialFactsScreen } from '#screens/shelf/MaterialFactsScreen.tsx';
import { headOf, headsOf } from '#store/heads.ts';
import { changeSettings } from '#store/settings.ts';
import { seven } from '../../hands/evening.ts';
import { aSentence, noNumbers, oddNames } from '../../hands/hostile.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { field, key, onShelf, refusals } from './shelf-page.ts';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const openNew = () => show(shop, <MaterialFactsScreen materialId={null} />);

async function add(): Promise<Material> {
  await key('Add this material').click();
  await expect.poll(() => window.location.hash).toMatch(/^#\/material\//);
  const [material] = await headsOf(shop.book, 'materials');
  if (!material) throw new Error('No material was added.');
  return material;
}

describe('a new material', () => {
  test('needs a name and nothing else', async () => {
    openNew();
    await field('Name').fill('Soft plastisol');
    const material = await add();
    expect(material).toMatchObject({
      name: 'Soft plastisol',
      kind: 'plastisol',
      unit: 'mL',
      package: null,
      reorderAt: null,
      dropMl: null,
      teaspoonG: null,
      flake: null,
      swatch: null,
      isAside: false,
    });
    expect(window.location.hash).toBe(`#/material/${material.id}`);
  });

  test('takes its package in the units of the person, exactly', async () => {
    openNew();
    await field('Name').fill('Soft plastisol');
    await page.getByRole('group', { name: 'Unit of the package' }).getByText('gal').click();
    await field('A package holds, in gal').fill('5');
    await field('A package costs').fill('189');
    await page.getByRole('group', { name: 'Unit of what is left' }).getByText('cups').click();
    await field('To buy at or below, in cups').fill('8');
    const { package: own, reorderAt } = await add();
    // 231 in3 to the gallon, 16 cups to the gallon (NIST Handbook 44, App. C).
    expect(own?.qty).toBeCloseTo(18_927.05892, 8);
    expect(own?.cents).toBe(18_900);
    expect(reorderAt).toBeCloseTo(1_892.705892, 8);
  });

  test('a flake is counted by weight and has a size, in inch and mm', async () => {
    openNew();
    await field('Name').fill('Copper flake');
    await key('Flake').click();
    await expect.element(key('By weight')).toHaveAttribute('aria-pressed', 'true');
    await page.getByRole('button', { name: '0.035 in 0.89 mm' }).click();
    await expect.element(field('Flake size in mm')).toHaveValue('0.889');
    await key('Square').click();
    await key('It has a colour').click();
    await field('It looks like').fill('#b06a35');
    expect(await add()).toMatchObject({
      kind: 'flake',
      unit: 'g',
      flake: { acrossMm: 0.889, cut: 'square' },
      swatch: '#b06a35',
    });
  });

  test.each(oddNames)('takes the name %s', async (name) => {
    openNew();
    await field('Name').fill(name);
    expect((await add()).name).toBe(name.trim());
  });
});

describe('a refusal', () => {
  test.each(noNumbers)('of %s stands beside its field and nothing is lost', async (_, text) => {
    openNew();
    await field('Name').fill('Soft plastisol');
    const numbers = [
      'A package holds, in fl oz',
      'A package costs',
      'To buy at or below, in fl oz',
      '1 mL weighs, in g',
    ];
    for (const label of numbers) await field(label).fill(text);
    await key('Add this material').click();
    await expect.poll(() => refusals().length).toBe(numbers.length);
    for (const sentence of refusals()) expect(sentence).toMatch(aSentence);
    for (const label of numbers) await expect.element(field(label)).toHaveValue(text);
    expect(await headsOf(shop.book, 'materials')).toEqual([]);
  });

  test('comes for a package without its price, a flake of a metre and no name', async () => {
    openNew();
    await key('Flake').click();
    await field('A package holds, in g').fill('113');
    await field('Flake size in mm').fill('1000');
    await key('Add this material').click();
    await expect
      .poll(refusals)
      .toEqual(['Give it a name.', 'Write what it costs, like 9.80.', 'At most 10 mm.']);
  });
});

describe('a material that is there', () => {
  test('keeps what was not touched, to the last digit, and its drop size', async () => {
    await changeSettings(shop.book, { volumeUnit: 'cup' }, seven);
    const own = { package: { qty: 118.294118, cents: 980 }, reorderAt: 20, dropMl: 0.048 };
    const material = await onShelf(shop, own, 100);
    show(shop, <MaterialFactsScreen materialId={material.id} />);
    await field('Name').fill('Soot black 2');
    await key('Save the changes').click();
    await expect.poll(() => window.location.hash).toBe(`#/material/${material.id}`);
    expect(await headOf(shop.book, 'materials', material.id)).toMatchObject({
      ...own,
      name: 'Soot black 2',
    });
  });

  test('with a journal keeps the unit that it is written in', async () => {
    const material = await onShelf(shop, {}, 100);
    show(shop, <MaterialFactsScreen materialId={material.id} />);
    await expect.element(page.getByText(/^Counted by volume/)).toBeVisible();
    await key('Salt').click();
    await key('Save the changes').click();
    await expect.poll(() => window.location.hash).toBe(`#/material/${material.id}`);
    expect(await headOf(shop.book, 'materials', material.id)).toMatchObject({
      kind: 'salt',
      unit: 'mL',
    });
  });
});
