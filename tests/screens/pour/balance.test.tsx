import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { verdictOf } from '#calc/balance.ts';
import type { PotId, Said, SessionId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { MixId } from '#model/mix.ts';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { entriesOf } from '#store/sessions.ts';
import { aColourway, aMould, pourEvening } from '../../hands/evening.ts';
import { id } from '../../hands/log.ts';
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

const isPressed = (name: RegExp) =>
  expect.element(key(name)).toHaveAttribute('aria-pressed', 'true');

test('one press on the page of a session says which side won, the next word counts, the same takes it back', async () => {
  const pair = await aColourway(shop.book, 'Pair', '#5b4029', '#eeeeee');
  const sessionId = await poured(pair);
  const verdict = async () =>
    verdictOf(await entriesOf(shop.book, sessionId), pair.id)?.verdict ?? null;
  await key(/^Side A won/).click();
  await expect.poll(verdict).toBe('a-won');
  await isPressed(/^Side A won/);
  await expect.element(page.getByRole('listitem').filter({ hasText: 'Side A won' })).toBeVisible();
  await key(/^Even/).click();
  await expect.poll(verdict).toBe('even');
  await isPressed(/^Even/);
  await key(/^Even/).click();
  await expect.poll(verdict).toBe('a-won');
  await isPressed(/^Side A won/);
  await key(/^Side A won/).click();
  await expect.poll(verdict).toBeNull();
});

test('a session of plain colours is not asked', async () => {
  await poured(await aColourway(shop.book, 'Plain', '#5b4029'));
  await expect
    .element(page.getByRole('heading', { name: 'How the two sides came out' }))
    .not.toBeInTheDocument();
});

test('a laminate made up at the table is judged before it has a name', async () => {
  const mould = await aMould(shop.book, 'Shad');
  const [a, b] = [id<PotId>('pot', 8), id<PotId>('pot', 9)];
  const [sideA, sideB] = [id<MixId>('mix', 8), id<MixId>('mix', 9)];
  const also = [
    { said: madeUp(a, { mixId: sideA, role: 'only' }), atMin: 1 },
    { said: madeUp(b, { mixId: sideB, role: 'b' }, a), atMin: 2 },
  ];
  const fills = [{ mould, gave: 'gggg' }];
  const sessionId = await pourEvening(shop.book, { fills, also });
  show(shop, <SessionScreen sessionId={sessionId} />);
  const group = page.getByRole('group', { name: 'How The mix made up here came out' });
  await group.getByRole('button', { name: 'Side B won' }).click();
  const verdict = async () =>
    verdictOf(await entriesOf(shop.book, sessionId), sideB)?.verdict ?? null;
  await expect.poll(verdict).toBe('b-won');
  await expect
    .element(page.getByRole('listitem').filter({ hasText: 'Side B won' }))
    .toHaveTextContent('Made up at the table');
  await group.getByRole('button', { name: 'Side B won' }).click();
  await expect.poll(verdict).toBeNull();
});

function madeUp(potId: PotId, mix: object, besidePotId: PotId | null = null): Said {
  const slot = besidePotId ? 1 : 0;
  const filled = { volumeMl: 237, meanHeats: 0, maxHeats: 0, besidePotId };
  const poured = { version: 1, plastisolId: null, doses: [], ...mix };
  const one = { potId, slot, name: 'A cup', swatch: null, ...filled, mix: poured };
  return {
    kind: 'pot-mixed',
    colourwayId: null,
    name: 'Pot 2',
    isAlone: slot === 0,
    pots: [one as never],
  };
}
