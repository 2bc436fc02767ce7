import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { lossOf } from '#store/loss.ts';
import { entriesOf } from '#store/sessions.ts';
import { aMould } from '../../hands/evening.ts';
import { aShop, type TestShop } from '../../hands/show.tsx';
import { key, openSession, row } from './session-page.tsx';

let shop: TestShop;

const field = () => page.getByRole('textbox', { name: /^Left of/ });
const runs = async () => (await lossOf(shop.book)).runs;

beforeEach(async () => {
  shop = await aShop();
});

test('what was left of a pot is told on the page of its session, weighed or by the cup, and is learnt from', async () => {
  const mould = await aMould(shop.book, 'Shad');
  const sessionId = await openSession(shop, mould, ['gggg', 'gggg']);
  await key(/^Pot 1.*not told/).click();
  await field().fill('105 g');
  await key('Note what was left').click();
  await expect.element(row('Pot emptied, 105 g left')).toBeVisible();
  await expect.element(key(/^Pot 1.*105 g left/)).toBeVisible();
  await expect.poll(runs).toBe(1);
  // 105 g at 1.05 g/mL.
  const said = (await entriesOf(shop.book, sessionId)).map((entry) => entry.said);
  const emptied = said.find(({ kind }) => kind === 'pot-emptied') as { leftMl: number };
  expect(emptied.leftMl).toBeCloseTo(100, 9);
});

test('telling it anew puts the line right, and taking the line back forgets it', async () => {
  const mould = await aMould(shop.book, 'Shad');
  await openSession(shop, mould, ['gggg']);
  await key(/^Pot 1/).click();
  await field().fill('¼ cup');
  await key('Note what was left').click();
  await expect.element(row('Pot emptied, 62 g left')).toBeVisible();
  await key(/^Pot 1/).click();
  await key('Poured dry').click();
  await expect.element(row('Pot poured dry')).toBeVisible();
  await expect.element(row('Was pot emptied, 62 g left, put right')).toBeVisible();
  await row('Pot poured dry').getByRole('button').first().click();
  await key(/^Take back/).click();
  await expect.poll(runs).toBe(0);
  await expect.element(key(/^Pot 1.*not told/)).toBeVisible();
});

test('what cannot be is refused beside the field, and nothing is written', async () => {
  const mould = await aMould(shop.book, 'Shad');
  await openSession(shop, mould, ['gggg']);
  await key(/^Pot 1/).click();
  await field().fill('some');
  await key('Note what was left').click();
  await expect.element(page.getByText('Write an amount, such as 40 g or ¼ cup.')).toBeVisible();
  await field().fill('900 g');
  await key('Note what was left').click();
  await expect.element(page.getByText('Only 497 g went into it.')).toBeVisible();
  expect(await runs()).toBe(0);
});

test('a pot that still stands at the table is not emptied from the desk', async () => {
  const mould = await aMould(shop.book, 'Shad');
  await openSession(shop, mould, ['gggg'], { endMin: null });
  await expect
    .element(page.getByRole('heading', { name: 'What was left in the pots' }))
    .not.toBeInTheDocument();
});
