import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { tableOf } from '#calc/table.ts';
import { LineUpScreen } from '#screens/start/LineUpScreen.tsx';
import { addHead, setDeleted } from '#store/heads.ts';
import { runningEntries } from '#store/sessions.ts';
import { changeSettings } from '#store/settings.ts';
import { aColourway, aMould, pourEvening, seven } from '../../hands/evening.ts';
import { oddNames } from '../../hands/hostile.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
  await changeSettings(shop.book, { cautionsReadAt: seven }, seven);
});

const open = () => show(shop, <LineUpScreen />);
const key = (name: string | RegExp) => page.getByRole('button', { name });
const table = async () => tableOf((await runningEntries(shop.book)) ?? []);
const seated = async () => (await table()).seats.map(({ mould }) => mould.name);

async function moulds(...names: string[]) {
  for (const name of names) await aMould(shop.book, name);
}

describe('choosing moulds', () => {
  test('they stand on the table in the order of pressing, and their cards say which', async () => {
    await moulds('Grub 50', 'Shad 7', 'Leaf tail');
    open();
    await key(/^Leaf tail/).click();
    await key(/^Grub 50/).click();
    await expect.element(key('Leaf tail 4 cavities mould 1')).toBeVisible();
    await expect.element(key('Grub 50 4 cavities mould 2')).toBeVisible();
    await key('Start pouring Leaf tail + Grub 50').click();
    await expect.poll(() => window.location.hash).toBe('#/table');
    expect(await seated()).toEqual(['Leaf tail', 'Grub 50']);
  });

  test('one that is pressed again goes, and those behind it move up', async () => {
    await moulds('Grub 50', 'Shad 7', 'Leaf tail');
    open();
    for (const name of [/^Grub 50/, /^Shad 7/, /^Leaf tail/]) await key(name).click();
    await key(/^Grub 50/).click();
    await expect.element(key('Shad 7 4 cavities mould 1')).toBeVisible();
    await key('Start pouring Shad 7 + Leaf tail').click();
    await expect.poll(seated).toEqual(['Shad 7', 'Leaf tail']);
  });

  test('a fourth is refused in a sentence, and the three stay', async () => {
    await moulds('One', 'Two', 'Three', 'Four');
    open();
    for (const name of [/^One/, /^Two/, /^Three/, /^Four/]) await key(name).click();
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent('Three moulds fill the table. Press one of them to take it off first.');
    await key('Start pouring One + Two + Three').click();
    await expect.poll(seated).toEqual(['One', 'Two', 'Three']);
  });

  test('begins one session, however often the key is pressed', async () => {
    await moulds('Grub 50');
    open();
    await key(/^Grub 50/).click();
    await key(/^Start pouring/).dblClick();
    await expect.poll(() => window.location.hash).toBe('#/table');
    const entries = (await runningEntries(shop.book)) ?? [];
    expect(await shop.book.db.count('entries')).toBe(entries.length);
  });

  test('needs one at least, and a mould that was taken off is not offered', async () => {
    await moulds('Grub 50');
    const gone = await aMould(shop.book, 'Gone');
    await setDeleted(shop.book, 'moulds', gone.id, seven, seven);
    open();
    await expect.element(page.getByText('Choose a mould to start.')).toBeVisible();
    await expect.element(key(/^Start pouring/)).not.toBeInTheDocument();
    await expect.element(key(/^Gone/)).not.toBeInTheDocument();
  });

  test.each(oddNames)('shows the name %s letter by letter', async (name) => {
    await moulds(name);
    const root = open();
    await expect.poll(() => root.querySelector('b')?.textContent).toBe(name);
    expect(root.querySelector('img')).toBeNull();
  });
});

describe('colour and injector', () => {
  test('are asked only where there are any', async () => {
    await moulds('Grub 50');
    open();
    await expect.element(key(/^Grub 50/)).toBeVisible();
    await expect.element(page.getByText('Which colours?')).not.toBeInTheDocument();
    await expect.element(page.getByText('Which injector?')).not.toBeInTheDocument();
  });

  test('that are chosen are on the table; a laminate brings two pots', async () => {
    await moulds('Grub 50');
    await aColourway(shop.book, 'Peat brown', '#5b4029');
    await aColourway(shop.book, 'Pearl and ink', '#ece7d8', '#1c2733');
    const facts = { name: 'Long one', capacityMl: 118, boreMm: 38, isTwin: true };
    await addHead(shop.book, 'injectors', facts, seven);
    open();
    await key(/^Grub 50/).click();
    await key('Pearl and ink').click();
    await key('Long one').click();
    await key(/^Start pouring/).click();
    await expect.poll(() => window.location.hash).toBe('#/table');
    const { potsInUse, injector } = await table();
    expect(potsInUse.map(({ name }) => name)).toEqual(['Pearl and ink A', 'Pearl and ink B']);
    expect(injector?.name).toBe('Long one');
  });
});

describe('the colours of the evening', () => {
  const swatches = [
    ['Ink', '#1c2733'],
    ['Peat brown', '#5b4029'],
    ['Pearl', '#ece7d8'],
  ] as const;

  test('are poured in the order they are pressed; light to dark is offered, and taken by a press', async () => {
    await moulds('Grub 50');
    for (const [name, swatch] of swatches) await aColourway(shop.book, name, swatch);
    open();
    await key(/^Grub 50/).click();
    await key('Ink').click();
    // One colour is no order.
    await expect.element(key('Light to dark')).not.toBeInTheDocument();
    await key('Pearl').click();
    await expect.element(key(/^Ink pot 1$/)).toBeVisible();
    await key('Peat brown').click();
    const hint = 'Light to dark leaves least of one in the next: Pearl, Peat brown, Ink.';
    await expect.element(page.getByText(hint)).toBeVisible();
    await key('Light to dark').click();
    await expect.element(key(/^Pearl pot 1$/)).toBeVisible();
    await expect.element(page.getByText(hint)).not.toBeInTheDocument();
    await key(/^Start pouring/).click();
    await expect.poll(() => window.location.hash).toBe('#/table');
    const { potsInUse, planned } = await table();
    expect(potsInUse.map(({ name }) => name)).toEqual(['Pearl']);
    expect(planned).toHaveLength(3);
  });
});

describe('the load of a round', () => {
  test('stands in one quiet line, with the smallest injector that holds it, and stops nobody', async () => {
    await changeSettings(shop.book, { volumeUnit: 'mL' }, seven);
    await moulds('Grub 50', 'Shad 7');
    const facts = { boreMm: null, isTwin: false };
    for (const [name, capacityMl] of [
      ['Small', 40],
      ['Middle', 59],
      ['Large', 118],
    ] as const) {
      await addHead(shop.book, 'injectors', { ...facts, name, capacityMl }, seven);
    }
    open();
    const line = page.getByRole('status');
    await expect.element(key(/^Grub 50/)).toBeVisible();
    await expect.element(line).not.toBeInTheDocument();
    await key(/^Grub 50/).click();
    // 4 baits of 9 mL and 1.5 mL of sprue each (method notes, section 5), and a tenth more.
    await expect.element(line).toHaveTextContent('Load 46 mL: Middle is enough.');
    await key('Large').click();
    await expect.element(line).toHaveTextContent('Load 46 mL: Middle is enough.');
    await key('Middle').click();
    await expect.element(line).toHaveTextContent('Load 46 mL of 59 mL.');
    await key(/^Shad 7/).click();
    await expect.element(line).toHaveTextContent('Load 92 mL: 2 times 59 mL.');
    await key('Small').click();
    await expect.element(line).toHaveTextContent('Load 92 mL: 40 mL is too small.');
    await key(/^Start pouring/).click();
    await expect.poll(seated).toEqual(['Grub 50', 'Shad 7']);
  });
});

describe('the way there', () => {
  test('goes by the cautions while nobody has read them', async () => {
    await changeSettings(shop.book, { cautionsReadAt: null }, seven);
    await moulds('Grub 50');
    open();
    await key(/^Grub 50/).click();
    await key(/^Start pouring/).click();
    await expect.poll(() => window.location.hash).toBe('#/cautions');
    expect(await seated()).toEqual(['Grub 50']);
  });

  test('while a session runs, leads to its table and begins no other', async () => {
    const mould = await aMould(shop.book, 'Grub 50');
    await pourEvening(shop.book, { fills: [{ mould, gave: 'gggg' }], endMin: null });
    open();
    await expect
      .element(page.getByRole('link', { name: 'Go to the table' }))
      .toHaveAttribute('href', '#/table');
    await expect.element(key(/^Start pouring/)).not.toBeInTheDocument();
  });

  test('without a mould, leads to adding one', async () => {
    open();
    await expect
      .element(page.getByRole('link', { name: 'Add a mould' }))
      .toHaveAttribute('href', '#/mould-facts/new');
  });
});

describe('pouring an old evening again', () => {
  test('carries its moulds and colour, each free to change, and none of its counts', async () => {
    const grub = await aMould(shop.book, 'Grub 50');
    const shad = await aMould(shop.book, 'Shad 7');
    const peat = await aColourway(shop.book, 'Peat brown', '#5b4029');
    const fills = [
      { mould: shad, gave: 'gggg' },
      { mould: grub, gave: 'gggg' },
    ];
    const old = await pourEvening(shop.book, {
      fills,
      colourway: peat,
      at: seven - 9 * 86_400_000,
    });
    await pourEvening(shop.book, { fills: [{ mould: grub, gave: 'gsgg' }] });
    show(shop, <LineUpScreen like={old} />);
    await expect.element(key('Shad 7 4 cavities mould 1')).toBeVisible();
    await expect.element(key('Peat brown')).toHaveAttribute('aria-pressed', 'true');
    await key(/^Start pouring Shad 7/).click();
    await expect.poll(() => window.location.hash).toBe('#/table');
    expect(await seated()).toEqual(['Shad 7', 'Grub 50']);
    const { shots, pots } = await table();
    expect(shots).toEqual([]);
    expect(pots.map(({ colourwayId }) => colourwayId)).toEqual([peat.id]);
  });

  test('one whose moulds are gone begins with nothing chosen', async () => {
    const grub = await aMould(shop.book, 'Grub 50');
    await moulds('Shad 7');
    const old = await pourEvening(shop.book, { fills: [{ mould: grub, gave: 'gggg' }] });
    await setDeleted(shop.book, 'moulds', grub.id, seven, seven);
    show(shop, <LineUpScreen like={old} />);
    await expect.element(page.getByText('Choose a mould to start.')).toBeVisible();
  });
});
