import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Mould, MouldId } from '#model/mould.ts';
import { MouldScreen } from '#screens/moulds/MouldScreen.tsx';
import { freshId } from '#store/book.ts';
import { changeHead, type FactsOf, headOf, headsOf } from '#store/heads.ts';
import { aMould, type Fill, morning, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const key = (name: string | RegExp) => page.getByRole('button', { name });
const shots = (mould: Mould, ...gave: string[]): Fill[] =>
  gave.map((one) => ({ mould, gave: one }));
const open = (mould: Mould) => show(shop, <MouldScreen mouldId={mould.id} />);
const says = (words: string | RegExp) =>
  expect.element(page.getByText(words, { exact: true })).toBeVisible();

/** A mould without the cold flag, so that every shot counts as warm. */
const silicone = (changes: Partial<FactsOf<'moulds'>> = {}) =>
  aMould(shop.book, 'Grub 50', { rows: 2, cols: 2 }, { material: 'silicone', ...changes });
/** A light one of aluminium: its first shot of an evening is cold, those right after it are warm. */
const light = () => aMould(shop.book, 'Light', { rows: 2, cols: 2 }, { massG: 300 });

describe('the counts', () => {
  test('are of warm shots to begin with, cold ones beside them, all at a press', async () => {
    const mould = await light();
    await pourEvening(shop.book, { fills: shots(mould, 'sssg', 'gggg', 'gdgg', 'gggg') });
    open(mould);
    await says('2 × 2, 3 warm shots since 24 Nov');
    await says('11 of 12 good');
    await says('Cold shots: 1 of 4 good.');
    await key('All').click();
    await says('2 × 2, 4 shots since 24 Nov');
    await says('12 of 16 good');
    await expect.element(page.getByText(/^Cold shots/)).not.toBeInTheDocument();
  });

  test('of this month begin where the month begins in the shop, not in Greenwich', async () => {
    const mould = await silicone();
    // 23:30 and 00:30 in Berlin, which are 21:30 and 23:30 of 31 October in Greenwich.
    await pourEvening(shop.book, {
      at: Date.UTC(2026, 9, 31, 22, 30),
      fills: shots(mould, 'ssss'),
    });
    await pourEvening(shop.book, {
      at: Date.UTC(2026, 9, 31, 23, 30),
      fills: shots(mould, 'ggsg'),
    });
    await pourEvening(shop.book, { fills: shots(mould, 'gggg') });
    open(mould);
    await says('7 of 12 good');
    await key('This month').click();
    await says('2 × 2, 2 shots this month');
    await says('7 of 8 good');
    shop.set(Date.UTC(2026, 11, 1, 8));
    await key('All').click();
    await key('This month').click();
    await says('No shot this month.');
  });

  test('stand in the picture and in its table, cavity by cavity', async () => {
    const mould = await silicone({ closed: [4] });
    await pourEvening(shop.book, { fills: shots(mould, 'gsnc', 'gsgc', 'dggc') });
    open(mould);
    await says('Most bad: cavity 2, 2 of 3. 1 not checked.');
    const picture =
      'Grub 50, cavity 1: 1 bad of 3, cavity 2: 2 bad of 3, cavity 3: 0 bad of 2, cavity 4: 0 bad of 0, closed off';
    await expect.element(page.getByRole('img', { name: picture })).toBeVisible();
    await page.getByText('As a table').first().click();
    const rows = page.getByRole('table').first().getByRole('row');
    await expect
      .poll(() => rows.elements().map((row) => [...row.children].map((c) => c.textContent)))
      .toEqual([
        ['Cavity', 'Bad', 'Looked at'],
        ['1', '1', '3'],
        ['2', '2', '3'],
        ['3', '0', '2'],
        ['4', '0', '0'],
      ]);
  });

  test.each([
    [['gggg', 'gggg'], 'None was bad.'],
    [['sggg', 'gggg'], '1 bad, in 1 of 4 cavities.'],
    [['ssgg', 'ssgg'], '4 bad, in 2 of 4 cavities.'],
    [['sggg', 'sggg', 'gdgg'], 'Most bad: cavity 1, 2 of 3.'],
  ])('%j is told in counts and no judgement', async (gave, sentence) => {
    const mould = await silicone();
    await pourEvening(shop.book, { fills: shots(mould, ...gave) });
    open(mould);
    await says(sentence);
    await expect
      .element(page.getByText(/worse than|fails more|than its neighbours|%/))
      .not.toBeInTheDocument();
  });

  test('hold every cavity of a mould that has got more of them since', async () => {
    const mould = await silicone();
    await pourEvening(shop.book, { fills: shots(mould, 'gggg') });
    const layout = { kind: 'grid', rows: 3, cols: 2, run: 'down', from: 'top-left' } as const;
    const grown = await changeHead(shop.book, 'moulds', mould.id, { layout }, morning);
    await pourEvening(shop.book, { at: morning, fills: shots(grown, 'ggggss', 'gggggs') });
    open(grown);
    await says('Most bad: cavity 6, 2 of 2.');
    await says('13 of 16 good');
  });

  test('show no range for two shots, and one for many', async () => {
    const mould = await silicone();
    await pourEvening(shop.book, { fills: shots(mould, 'gggg', 'gggg') });
    open(mould);
    await says('too few to tell');
    await pourEvening(shop.book, { at: seven + 3_600_000, fills: shots(mould, 'gggg', 'gggg') });
    // 16 of 16 in two sessions; the effect of four alike shots, 1.6, outweighs that of two sessions
    // of 8 alike by 0.05, 1.35: lower end 10 / (10 + 2.706), Newcombe 1998.
    await says('expect 79 to 100 of 100');
  });

  test('of defects are bars, the commonest first', async () => {
    const mould = await silicone();
    await pourEvening(shop.book, { fills: shots(mould, 'sdgg', 'ssgg', 'tsgg') });
    open(mould);
    await expect.element(page.getByRole('heading', { name: 'What goes wrong' })).toBeVisible();
    const bars = [...document.querySelectorAll('dl > div')].map(({ textContent }) => textContent);
    expect(bars).toEqual(['Short4', 'Dent1', 'Tear1']);
  });

  test('of the last sessions lead to them, newest first', async () => {
    const mould = await silicone();
    const at = (back: number) => seven - back * 86_400_000;
    const older = await pourEvening(shop.book, { at: at(1), fills: shots(mould, 'ggsg') });
    const newer = await pourEvening(shop.book, { at: at(0), fills: shots(mould, 'gggg') });
    open(mould);
    await page.getByText('Last sessions').click();
    const links = page.getByRole('link', { name: /good$/ });
    await expect.element(links.first()).toHaveTextContent('Tue 24 Nov: 4 of 4 good');
    expect(links.elements().map((link) => link.getAttribute('href'))).toEqual([
      `#/session/${newer}`,
      `#/session/${older}`,
    ]);
  });
});

describe('closing cavities', () => {
  const closed = async (mould: Mould) => (await headOf(shop.book, 'moulds', mould.id))?.closed;

  test('closes the one with the most bad off, and opens it again', async () => {
    const mould = await silicone({ closed: [4] });
    await pourEvening(shop.book, { fills: shots(mould, 'gsgc', 'gsgc') });
    open(mould);
    await key('Close off 2').click();
    await expect.element(key('Open 2 again')).toBeVisible();
    expect(await closed(mould)).toEqual([2, 4]);
    await key('Open 4 again').click();
    await expect.poll(() => closed(mould)).toEqual([2]);
  });

  test('is left to the table while the mould is on it', async () => {
    const mould = await silicone({ closed: [4] });
    await pourEvening(shop.book, { fills: shots(mould, 'gsgc', 'gsgc') });
    await pourEvening(shop.book, {
      at: morning,
      fills: shots(mould, 'gggc'),
      endMin: null,
    });
    open(mould);
    await says('It is on the table now. Close and open its cavities there.');
    await expect.element(key('Open 4 again')).not.toBeInTheDocument();
  });
});

describe('the mould itself', () => {
  test('is taken off the list once, keeps its past, and can be brought back', async () => {
    const mould = await silicone();
    await pourEvening(shop.book, { fills: shots(mould, 'gggg') });
    open(mould);
    await key('Take off the list').dblClick();
    await expect.poll(() => window.location.hash).toBe('#/moulds');
    expect(await headsOf(shop.book, 'moulds')).toEqual([]);
    open(mould);
    await says('4 of 4 good');
    await key('Bring back').click();
    await expect.element(key('Take off the list')).toBeVisible();
    expect(await headsOf(shop.book, 'moulds')).toHaveLength(1);
  });

  test('leads to its facts', async () => {
    const mould = await silicone();
    open(mould);
    await expect
      .element(page.getByRole('link', { name: 'Change its facts' }))
      .toHaveAttribute('href', `#/mould-facts/${mould.id}`);
  });

  test('that is not in the logbook is said to be missing', async () => {
    show(shop, <MouldScreen mouldId={freshId<MouldId>(seven)} />);
    await says('This mould is not in this logbook.');
    await expect
      .element(page.getByRole('link', { name: 'Back to Moulds' }))
      .toHaveAttribute('href', '#/moulds');
  });
});
