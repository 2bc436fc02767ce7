import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Material, MaterialId } from '#model/material.ts';
import { MaterialScreen } from '#screens/shelf/MaterialScreen.tsx';
import { freshId } from '#store/book.ts';
import { headOf } from '#store/heads.ts';
import { keepMix } from '#store/mixes.ts';
import { changeSettings } from '#store/settings.ts';
import { movementsOf } from '#store/stock.ts';
import { aColourway, aMould, morning, seven } from '../../hands/evening.ts';
import { aSentence, noNumbers, oddNames } from '../../hands/hostile.ts';
import { aDraft, pourMix } from '../../hands/mixes.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { field, key, moved, onShelf, poured, refusals } from './shelf-page.ts';

let shop: TestShop;
let black: Material;

beforeEach(async () => {
  shop = await aShop();
  await changeSettings(shop.book, { volumeUnit: 'mL' }, seven);
  black = await onShelf(shop, { package: { qty: 118.294118, cents: 980 } }, 100);
});

const open = (material = black) => show(shop, <MaterialScreen materialId={material.id} />);
const left = (words: string) => page.getByText(`${words} left`, { exact: true });
const journal = () =>
  page
    .getByRole('region')
    .or(page.getByRole('main'))
    .getByRole('listitem')
    .elements()
    .filter((line) => line.querySelector('button, a'))
    .map((line) => [...line.querySelectorAll('small, b')].map(({ textContent }) => textContent));
const written = async () => (await movementsOf(shop.book, black.id)).slice(1);

describe('a movement', () => {
  test('bought begins with the usual package and is written as it was paid', async () => {
    open();
    await key('Bought').click();
    await expect.element(field('How much, in mL')).toHaveValue('118.294');
    await field('Paid for all of it').fill('10,20');
    await field('Lot').fill(' A 12 ');
    await expect.element(page.getByText('makes 218 mL')).toBeVisible();
    await field('Note').fill('second bottle');
    await page.getByRole('button', { name: /^Write it down/ }).click();
    await expect.element(left('218 mL')).toBeVisible();
    expect(await written()).toMatchObject([
      {
        at: morning,
        says: { kind: 'bought', qty: 118.294118, cents: 1_020, lot: 'A 12' },
        note: 'second bottle',
      },
    ]);
    expect(journal()[0]).toEqual([
      'Wed 25 Nov',
      'Bought 118 mL',
      'then 218 mL',
      'for 10.20, lot A 12',
      'second bottle',
    ]);
    await expect.poll(() => shop.felt).toEqual(['confirm']);
  });

  test('on the scale is gross less tare, and the tare is kept for the next time', async () => {
    open();
    await key('Weighed or counted').click();
    await field('Jar and all, in g').fill('110');
    await field('The empty jar, in g').fill('30');
    await expect.element(page.getByText('That is 80 mL of it.')).toBeVisible();
    await page.getByRole('button', { name: /^Start from here/ }).click();
    await expect.element(left('80 mL')).toBeVisible();
    await expect.poll(async () => (await headOf(shop.book, 'materials', black.id))?.tareG).toBe(30);
    expect(journal()[0]?.slice(1)).toEqual([
      'Counted 80 mL',
      'then 80 mL',
      '20 mL less than the journal said',
    ]);
    // The level stands there while the tare is still being written.
    await expect.element(field('The empty jar, in g')).not.toBeInTheDocument();
    await key('Weighed or counted').click();
    await expect.element(field('The empty jar, in g')).toHaveValue('30');
  });

  test('in ounces and fluid ounces is stored exactly', async () => {
    await changeSettings(shop.book, { volumeUnit: 'floz', massUnit: 'oz' }, seven);
    open();
    await key('Weighed or counted').click();
    await field('Jar and all, in oz').fill('4');
    await field('The empty jar, in oz').fill('1');
    await page.getByRole('button', { name: /^Start from here/ }).click();
    await expect.poll(async () => (await written()).length).toBe(1);
    await key('Lost').click();
    await field('How much, in fl oz').fill('1');
    await field('Why').fill('tipped over');
    await page.getByRole('button', { name: /^Write it down/ }).click();
    await expect.poll(async () => (await written()).length).toBe(2);
    // 1 oz is 28.349523125 g, 1 fl oz 29.5735295625 mL (NIST Handbook 44, App. C).
    const says = (await written()).map((movement) => movement.says);
    const count = says.find(({ kind }) => kind === 'counted');
    const lost = says.find(({ kind }) => kind === 'lost');
    expect(count?.kind === 'counted' && count.level).toBeCloseTo(3 * 28.349523125, 9);
    expect(lost?.kind === 'lost' && lost.qty).toBeCloseTo(29.5735295625, 9);
  });

  test('one opened while another is written stays open, with what was typed', async () => {
    open();
    await key('Weighed or counted').click();
    await field('Jar and all, in g').fill('110');
    await field('The empty jar, in g').fill('30');
    const send = page.getByRole('button', { name: /^Start from here/ }).element();
    const lost = key('Lost').element();
    // The second press comes before the database has answered the first.
    if (send instanceof HTMLElement && lost instanceof HTMLElement) {
      send.click();
      lost.click();
    }
    await field('Why').fill('tipped over');
    await expect.poll(async () => (await written()).length).toBe(1);
    await expect.element(left('80 mL')).toBeVisible();
    await expect.element(field('Why')).toHaveValue('tipped over');
  });

  test('still right is one press, moves nothing and is dated', async () => {
    open();
    await expect.element(page.getByText('Never counted.')).toBeVisible();
    await key('Still right').click();
    await expect.element(page.getByText('Last looked at on Wed 25 Nov.')).toBeVisible();
    await expect.element(left('100 mL')).toBeVisible();
    expect(await written()).toMatchObject([{ says: { kind: 'checked' } }]);
  });

  test('a container that is opened is one press, with the lot that was bought last, and goes by the journal', async () => {
    await moved(shop, black, { kind: 'bought', qty: 50, cents: 400, lot: 'A 12' });
    open();
    await key('Opened a new one').click();
    const says = page.getByText('Opened Wed 25 Nov, lot A 12: open since today.');
    await expect.element(says).toBeVisible();
    await expect.element(left('150 mL')).toBeVisible();
    expect(journal()[0]?.slice(0, 2)).toEqual(['Wed 25 Nov', 'Opened a container']);
    await page
      .getByRole('button', { name: /^Take back/ })
      .first()
      .click();
    await expect.element(says).not.toBeInTheDocument();
  });

  test('of an earlier day is put at its noon, and one of tomorrow is refused', async () => {
    open();
    await key('Lost').click();
    await field('How much, in mL').fill('5');
    await field('Day').fill('2026-11-26');
    await page.getByRole('button', { name: /^Write it down/ }).click();
    await expect.poll(refusals).toEqual(['This day has not come yet.']);
    await field('Day').fill('2026-11-20');
    await page.getByRole('button', { name: /^Write it down/ }).click();
    await expect.element(left('95 mL')).toBeVisible();
    expect(await written()).toMatchObject([{ at: Date.UTC(2026, 10, 20, 11), writtenAt: morning }]);
  });

  test('far from the usual gets one line and is taken all the same', async () => {
    open();
    await key('Bought').click();
    await field('How much, in mL').fill('500');
    await expect
      .element(page.getByText('That is over 5 times your usual 100 mL. Fine if it is so.'))
      .toBeVisible();
    await field('How much, in mL').fill('400');
    await expect.poll(() => page.getByText(/Fine if it is so/).elements()).toHaveLength(0);
    await field('Paid for all of it').fill('500');
    await expect
      .element(
        page.getByText('That is over 5 times your usual 40.00 for that much. Fine if it is so.'),
      )
      .toBeVisible();
    await page.getByRole('button', { name: /^Write it down/ }).click();
    await expect.element(left('500 mL')).toBeVisible();
    await key('Weighed or counted').click();
    await key('By measure').click();
    await field('There is, in mL').fill('100');
    await expect
      .element(
        page.getByText('That is under a fifth of the 500 mL of the journal. Fine if it is so.'),
      )
      .toBeVisible();
  });
});

describe('a refusal', () => {
  test.each(noNumbers)('of %s stands beside its field, and nothing is written', async (_, text) => {
    open();
    await key('Bought').click();
    await field('How much, in mL').fill(text);
    await field('Paid for all of it').fill(text);
    await page.getByRole('button', { name: /^Write it down/ }).click();
    await expect.poll(() => refusals().length).toBe(2);
    for (const sentence of refusals()) expect(sentence).toMatch(aSentence);
    await expect.element(field('How much, in mL')).toHaveValue(text);
    expect(await written()).toEqual([]);
  });

  test('comes for nothing bought, for less than nothing, and for a jar lighter than its tare', async () => {
    open();
    await key('Bought').click();
    await field('How much, in mL').fill('0');
    await field('Paid for all of it').fill('-1');
    await page.getByRole('button', { name: /^Write it down/ }).click();
    await expect.poll(refusals).toEqual(['Above 0.', 'Not below 0.']);
    await key('Weighed or counted').click();
    await field('Jar and all, in g').fill('20');
    await field('The empty jar, in g').fill('30');
    await page.getByRole('button', { name: /^Start from here/ }).click();
    await expect.poll(refusals).toEqual(['That is less than the empty jar. Look at both again.']);
    expect(await written()).toEqual([]);
  });
});

describe('the journal', () => {
  test('takes a line back and brings it again', async () => {
    await moved(shop, black, { kind: 'lost', qty: 30 }, seven);
    open();
    await expect.element(left('70 mL')).toBeVisible();
    await page.getByRole('button', { name: /^Take back: Lost 30 mL/ }).click();
    await expect.element(left('100 mL')).toBeVisible();
    await expect.element(page.getByText('Taken back, counts no more')).toBeVisible();
    await page.getByRole('button', { name: /^Bring back: Lost 30 mL/ }).click();
    await expect.element(left('70 mL')).toBeVisible();
    expect(page.getByText('Taken back, counts no more').elements()).toHaveLength(0);
    expect(await written()).toHaveLength(3);
  });

  test('leads from what was poured to its session', async () => {
    const clear = await onShelf(shop, { name: 'Clear', kind: 'plastisol' }, 3_000);
    await poured(shop, await aMould(shop.book, 'Grub 50'), clear, [400]);
    const [column] = await shop.book.db.getAll('columns');
    open(clear);
    await expect.element(page.getByText('Used 400 mL')).toBeVisible();
    await expect
      .element(page.getByRole('link', { name: 'Session of Tue 24 Nov' }))
      .toHaveAttribute('href', `#/session/${column?.sessionId}`);
  });

  test('tells of a colourant what went and what is there to the drop, also in a shop of ounces', async () => {
    await changeSettings(shop.book, { volumeUnit: 'floz' }, seven);
    const clear = await onShelf(shop, { name: 'Clear', kind: 'plastisol' }, 3_000);
    const peat = await aColourway(shop.book, 'Peat', '#5b4029');
    const draft = aDraft([[black, 1]]);
    const [side] = draft.sides;
    if (!side) throw new Error('A mix has a side.');
    const of = { ...draft, sides: [{ ...side, plastisolId: clear.id }] };
    await pourMix(shop.book, await keepMix(shop.book, peat.id, of, seven), seven + 60_000);
    open();
    await expect.element(page.getByText('Used 1 drop, 0.05 mL', { exact: true })).toBeVisible();
    // 100 mL are 2,000 usual drops of 0.05 mL.
    await expect.element(page.getByText('About 1999 drops.')).toBeVisible();
  });

  test('says how much more went than was written down', async () => {
    await moved(shop, black, { kind: 'lost', qty: 130 }, seven);
    open();
    await expect.element(page.getByText(/^30 mL more went than was written down/)).toBeVisible();
    await expect.element(left('0 mL')).toBeVisible();
  });

  test('shows the newest lines first and the rest on demand', async () => {
    for (let n = 1; n <= 14; n += 1) await moved(shop, black, { kind: 'lost', qty: n }, seven + n);
    open();
    await expect.poll(() => journal().length).toBe(12);
    expect(journal()[0]?.[1]).toBe('Lost 14 mL');
    await key('All 15 lines').click();
    await expect.poll(() => journal().length).toBe(15);
    expect(journal().at(-1)?.[1]).toBe('Bought 100 mL');
  });
});

describe('a measure of one’s own', () => {
  test('50 drops that weigh 2.4 g are drops of 0.048 mL, and the usual one can come back', async () => {
    open();
    await expect.element(page.getByText(/^0\.05 mL, the usual drop/)).toBeVisible();
    await key('Measure its drops').click();
    await field('They weigh, in g').fill('2.4');
    await key('Keep this').click();
    await expect.element(page.getByText('0.048 mL, your own.')).toBeVisible();
    await expect
      .poll(async () => (await headOf(shop.book, 'materials', black.id))?.dropMl)
      .toBeCloseTo(0.048, 12);
    await key('Back to the usual').click();
    await expect.element(page.getByText(/^0\.05 mL, the usual drop/)).toBeVisible();
  });

  test('20 drops that fill 1 mL are 0.05 mL; a drop of a cup is refused, a large one gets a line', async () => {
    open();
    await key('Measure its drops').click();
    await field('How many drops').fill('20');
    await key('mL').click();
    await field('They fill, in mL').fill('80');
    await key('Keep this').click();
    await expect.poll(refusals).toEqual(['At most 1 mL. Count again.']);
    await field('They fill, in mL').fill('6');
    await expect.element(page.getByText(/That is over 5 times the usual/)).toBeVisible();
    await field('They fill, in mL').fill('1');
    await key('Keep this').click();
    await expect.element(page.getByText('0.05 mL, your own.')).toBeVisible();
  });

  test('a level teaspoon of flake is weighed', async () => {
    const flake = await onShelf(shop, { name: 'Copper flake', kind: 'flake', unit: 'g' }, 100);
    open(flake);
    await key('Weigh a teaspoon').click();
    await field('How many level teaspoons').fill('5');
    await field('They weigh, in g').fill('16.5');
    await key('Keep this').click();
    await expect.element(page.getByText('3.3 g, your own.')).toBeVisible();
  });
});

describe('the page', () => {
  test('says what it costs, what is there is worth, and how large a flake is in both systems', async () => {
    const size = { acrossMm: 0.889, cut: 'hex' } as const;
    const flake = await onShelf(
      shop,
      { name: 'Flake', kind: 'flake', unit: 'g', flake: size, reorderAt: 20 },
      100,
    );
    await moved(shop, flake, { kind: 'lost', qty: 40 }, seven);
    open(flake);
    await expect.element(page.getByText('1 g costs 0.10, on average.')).toBeVisible();
    await expect.element(page.getByText('What is there cost 6.00.')).toBeVisible();
    await expect.element(page.getByText('Flake of 0.035 in, 0.89 mm, hex.')).toBeVisible();
    await expect.element(page.getByText('To buy at 20 g or less.')).toBeVisible();
  });

  test('is taken off the list and not lost', async () => {
    open();
    await key('Take off the list').click();
    await expect.poll(() => window.location.hash).toBe('#/shelf');
    expect((await headOf(shop.book, 'materials', black.id))?.deletedAt).toBe(morning);
  });

  test('says so when the logbook has no such material', async () => {
    show(shop, <MaterialScreen materialId={freshId<MaterialId>(seven)} />);
    await expect.element(page.getByText('This material is not in this logbook.')).toBeVisible();
  });

  test.each(oddNames)('shows the name %s letter by letter', async (name) => {
    open(await onShelf(shop, { name }));
    await expect.poll(() => document.querySelector('h1')?.firstChild?.textContent).toBe(name);
  });
});
