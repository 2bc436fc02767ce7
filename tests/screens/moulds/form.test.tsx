import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { MouldId } from '#model/mould.ts';
import { MouldFactsScreen } from '#screens/moulds/MouldFactsScreen.tsx';
import { freshId } from '#store/book.ts';
import { headOf, headsOf } from '#store/heads.ts';
import { changeSettings } from '#store/settings.ts';
import { aMould, seven } from '../../hands/evening.ts';
import { fillDevice } from '../../hands/full-device.ts';
import { aSentence, noNumbers, oddNames } from '../../hands/hostile.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { add, field, key, openNew, openOld, refusals } from './form-page.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const saved = () => headsOf(shop.book, 'moulds');

describe('a new mould', () => {
  test('needs a name and nothing else; what is unknown stays unknown', async () => {
    await openNew(shop);
    await field('Name').fill('Grub 50');
    const mould = await add(shop);
    expect(mould).toMatchObject({
      name: 'Grub 50',
      layout: { kind: 'grid', rows: 4, cols: 2 },
      material: 'aluminium',
      massG: null,
      partMl: null,
      sprueMl: null,
      section: null,
      setSec: null,
      closed: [],
    });
    expect(window.location.hash).toBe(`#/mould/${mould.id}`);
  });

  test('takes every fact, with a comma or a point', async () => {
    await openNew(shop);
    await field('Name').fill('  Shad 7 ');
    await key('Stone or plaster').click();
    await field('Weight in g').fill('2500');
    await field('One bait in mL').fill('7,25');
    await field('Sprue in mL').fill('0');
    await field('Thickest part of the bait in mm').fill('12.5');
    await field('Thinnest part of the bait in mm').fill('2,5');
    await key('Flat there').click();
    await field('Your own set time').fill('3:15');
    expect(await add(shop)).toMatchObject({
      name: 'Shad 7',
      material: 'stone',
      massG: 2_500,
      partMl: 7.25,
      sprueMl: 0,
      section: { shape: 'flat', thicknessMm: 12.5 },
      thinnestMm: 2.5,
      setSec: 195,
    });
  });

  test('has no thin part that is thicker than its thickest', async () => {
    await openNew(shop);
    await field('Name').fill('Shad 7');
    await field('Thickest part of the bait in mm').fill('5');
    await field('Thinnest part of the bait in mm').fill('6');
    await key('Add this mould').click();
    await expect.poll(refusals).toEqual(['The thinnest part is not thicker than the thickest.']);
    await field('Thinnest part of the bait in mm').fill('0.1');
    await key('Add this mould').click();
    await expect.poll(refusals).toEqual(['At least 0.2 mm.']);
    expect(await saved()).toEqual([]);
  });

  test('is measured in inches where the shop does, and kept in exact mm', async () => {
    await changeSettings(shop.book, { lengthUnit: 'in' }, seven);
    await openNew(shop);
    await field('Name').fill('Shad 7');
    await field('Thickest part of the bait in inches').fill('0.5');
    await field('Thinnest part of the bait in inches').fill('4');
    await key('Add this mould').click();
    await expect.poll(refusals).toEqual(['The thinnest part is not thicker than the thickest.']);
    await field('Thickest part of the bait in inches').fill('5');
    await key('Add this mould').click();
    await expect.poll(refusals).toEqual(['At most 3.94 in.', 'At most 3.94 in.']);
    await field('Thickest part of the bait in inches').fill('0.5');
    await field('Thinnest part of the bait in inches').fill('0,1');
    const { section, thinnestMm } = await add(shop);
    expect(section?.thicknessMm).toBeCloseTo(12.7, 12);
    expect(thinnestMm).toBeCloseTo(2.54, 12);
  });

  test('is added once, however often the key is pressed', async () => {
    await openNew(shop);
    await field('Name').fill('Grub 50');
    await key('Add this mould').dblClick();
    await expect.poll(() => window.location.hash).toMatch(/^#\/mould\//);
    expect(await saved()).toHaveLength(1);
  });

  test('says from how many cavities its weight and sprue are worked out', async () => {
    await openNew(shop);
    // 8 cavities make 2.5 kg and 12 mL (method notes, sections 3 and 5).
    await expect
      .element(page.getByText(/worked out from 8 cavities, about 2\.5 kg\.$/))
      .toBeVisible();
    await expect.element(page.getByText(/Empty: 12 mL, from 8 cavities\.$/)).toBeVisible();
    await key('One across less').click();
    await expect.element(page.getByText(/from 4 cavities, about 1\.5 kg\.$/)).toBeVisible();
  });
});

describe('a refusal', () => {
  test.each([
    ['', 'Give it a name.'],
    ['   ', 'Give it a name.'],
    ['x'.repeat(61), 'Keep the name to 60 letters.'],
  ])('of the name “%s” says: %s', async (name, sentence) => {
    await openNew(shop);
    await field('Name').fill(name);
    await key('Add this mould').click();
    await expect.poll(refusals).toEqual([sentence]);
    await expect.element(field('Name')).toHaveValue(name);
    await expect.element(field('Name')).toHaveFocus();
    expect(await saved()).toEqual([]);
  });

  test.each(oddNames)('is not what the name %s gets: it is kept letter by letter', async (name) => {
    const root = await openNew(shop);
    await field('Name').fill(name);
    const mould = await add(shop);
    expect(mould.name).toBe(name);
    show(shop, <MouldFactsScreen mouldId={mould.id} />);
    await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent(name);
    await expect.element(field('Name')).toHaveValue(name);
    expect(root.querySelector('img')).toBeNull();
  });

  const fields = [
    'Weight in g',
    'One bait in mL',
    'Sprue in mL',
    'Thickest part of the bait in mm',
    'Your own set time',
  ];
  test.each(noNumbers)(
    'meets %s in every field for a number, and nothing typed is lost',
    async (_, text) => {
      await openNew(shop);
      await field('Name').fill('Grub 50');
      for (const label of fields) await field(label).fill(text);
      await key('Add this mould').click();
      await expect.poll(() => refusals().length).toBe(fields.length);
      for (const sentence of refusals()) expect(sentence).toMatch(aSentence);
      for (const label of fields) await expect.element(field(label)).toHaveValue(text);
      await expect.element(field('Name')).toHaveValue('Grub 50');
      expect(await saved()).toEqual([]);
    },
  );

  test.each([
    ['Weight in g', '49', 'A mould weighs at least 50 g.'],
    ['Weight in g', '-2500', 'A mould weighs at least 50 g.'],
    ['Weight in g', '100001', 'At most 100 kg.'],
    ['One bait in mL', '0', 'It must hold something.'],
    ['One bait in mL', '-1', 'It must hold something.'],
    ['One bait in mL', '100001', 'More than 100 litres cannot be.'],
    ['Sprue in mL', '-0.1', 'Not below 0.'],
    ['Sprue in mL', '10001', 'More than 10 litres cannot be.'],
    ['Thickest part of the bait in mm', '0,4', 'At least 0.5 mm.'],
    ['Thickest part of the bait in mm', '101', 'At most 100 mm.'],
    ['Your own set time', '0:14', 'At least 0:15.'],
    ['Your own set time', '3601', 'At most an hour.'],
    ['Your own set time', '3:75', 'Write minutes and seconds, like 3:15. Or leave it empty.'],
  ])('of %s %s says: %s', async (label, text, sentence) => {
    await openNew(shop);
    await field('Name').fill('Grub 50');
    await field(label).fill(text);
    await key('Add this mould').click();
    await expect.poll(refusals).toEqual([sentence]);
    await expect.element(field(label)).toHaveFocus();
    await expect.element(field(label)).toHaveAccessibleDescription(new RegExp(sentence));
  });

  test('goes as soon as its field is changed', async () => {
    await openNew(shop);
    await key('Add this mould').click();
    await expect.poll(refusals).toEqual(['Give it a name.']);
    await field('Name').fill('G');
    await expect.poll(refusals).toEqual([]);
  });
});

describe('a mould of the shop', () => {
  test('keeps what the form does not show, and cavities that are still there stay closed', async () => {
    const heat = { tauSec: 2_000, uptake: 0.8 };
    const facts = { closed: [2, 8], heat, hasNoClock: true };
    const mould = await aMould(shop.book, 'Grub 50', { rows: 4, cols: 2 }, facts);
    await openOld(shop, mould);
    await key('One across less').click();
    await field('Weight in g').fill('1900');
    await key('Save the changes').click();
    await expect
      .poll(() => headOf(shop.book, 'moulds', mould.id))
      .toMatchObject({ closed: [2], heat, hasNoClock: true, massG: 1_900 });
  });

  test('that has no clock gets one with a set time of its own', async () => {
    const mould = await aMould(shop.book, 'Grub 50', { rows: 1, cols: 1 }, { hasNoClock: true });
    await openOld(shop, mould);
    await field('Your own set time').fill('200');
    await key('Save the changes').click();
    await expect
      .poll(() => headOf(shop.book, 'moulds', mould.id))
      .toMatchObject({ hasNoClock: false, setSec: 200 });
  });

  test('that is not in the logbook is said to be missing, and no form adds another', async () => {
    show(shop, <MouldFactsScreen mouldId={freshId<MouldId>(seven)} />);
    await expect.element(page.getByText('This mould is not in this logbook.')).toBeVisible();
    await expect.element(field('Name')).not.toBeInTheDocument();
  });

  test('that could not be stored stays on the page', async () => {
    await openNew(shop);
    await field('Name').fill('Grub 50');
    const giveRoom = fillDevice();
    await key('Add this mould').click();
    await expect.poll(refusals).toEqual(['Not saved. Free some space and press again.']);
    await expect.element(field('Name')).toHaveValue('Grub 50');
    giveRoom();
  });
});
