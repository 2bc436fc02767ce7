import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { verdictOf } from '#calc/balance.ts';
import type { SessionId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { entriesOf } from '#store/sessions.ts';
import { aColourway, aMould, pourEvening } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

async function poured(colourway: Colourway): Promise<SessionId> {
  const mould = await aMould(shop.book, 'Shad');
  const sessionId = await pourEvening(shop.book, { fills: [{ mould, gave: 'gggg' }], colourway });
  show(shop, <SessionScreen sessionId={sessionId} />);
  await expect.element(page.getByRole('heading', { name: 'Entries' })).toBeVisible();
  return sessionId;
}

const key = (name: RegExp) =>
  page.getByRole('group', { name: 'How Pair came out' }).getByRole('button', { name });

test('one press on the page of a session says which side won, the next word counts, the same takes it back', async () => {
  const pair = await aColourway(shop.book, 'Pair', '#5b4029', '#eeeeee');
  const sessionId = await poured(pair);
  const verdict = async () =>
    verdictOf(await entriesOf(shop.book, sessionId), pair.id)?.verdict ?? null;
  await key(/^Side A won/).click();
  await expect.poll(verdict).toBe('a-won');
  await expect.element(key(/^Side A won/)).toHaveAttribute('aria-pressed', 'true');
  await expect.element(page.getByRole('listitem').filter({ hasText: 'Side A won' })).toBeVisible();
  await key(/^Even/).click();
  await expect.poll(verdict).toBe('even');
  await key(/^Even/).click();
  await expect.poll(verdict).toBe('a-won');
  await key(/^Side A won/).click();
  await expect.poll(verdict).toBeNull();
});

test('a session of plain colours is not asked', async () => {
  await poured(await aColourway(shop.book, 'Plain', '#5b4029'));
  await expect
    .element(page.getByRole('heading', { name: 'How the two sides came out' }))
    .not.toBeInTheDocument();
});
