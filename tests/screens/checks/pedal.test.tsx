import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { deviceKeys } from '#platform/keys.ts';
import { PedalCheckScreen } from '#screens/checks/PedalCheckScreen.tsx';
import { changeSettings, settingsOf } from '#store/settings.ts';
import { seven } from '../../hands/evening.ts';
import { type KeyWords, keyDown, pageDown, pageUp, wornPress } from '../../hands/pedal.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;
let atMs = 600_000;

beforeEach(async () => {
  shop = await aShop();
  shop.keys = deviceKeys;
});

const key = (name: string) => page.getByRole('button', { name, exact: true });
const pedal = async () => (await settingsOf(shop.book)).pedal;
const asks = (words: string) => page.getByText(words, { exact: true });
const forPress = 'Press the pedal for Filled and All good now.';
const forUndo = 'Now press the pedal for Undo.';

async function open(): Promise<void> {
  show(shop, <PedalCheckScreen />);
  await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent('Pedal check');
}

function foot(words: KeyWords): void {
  atMs += 1_000;
  wornPress(words, atMs);
}

async function learn(): Promise<void> {
  await key("Find my pedal's keys").click();
  await expect.element(asks(forPress)).toBeVisible();
}

test('a pedal of two switches is learnt by pressing each, also one that bounces and sends Enter', async () => {
  await open();
  await learn();
  foot({ key: 'Enter', code: 'Enter' });
  await expect.element(asks(forUndo)).toBeVisible();
  expect(page.getByRole('alert').query()).toBeNull();
  foot({ key: 'b', code: 'KeyB' });
  await expect.poll(pedal).toEqual({ press: ['Enter'], undo: ['KeyB'] });
  await expect.element(page.getByRole('definition').nth(0)).toHaveTextContent('Enter');
  await expect.element(page.getByRole('definition').nth(1)).toHaveTextContent('B');
});

test('the same switch twice is refused in a sentence, and the other still learnt', async () => {
  await open();
  await learn();
  foot(pageUp);
  await expect.element(asks(forUndo)).toBeVisible();
  foot(pageUp);
  await expect
    .element(page.getByRole('alert'))
    .toHaveTextContent('That is the same key. Press the other pedal.');
  foot(pageDown);
  await expect.poll(pedal).toEqual({ press: ['PageUp'], undo: ['PageDown'] });
});

test('a pedal of one switch keeps the one; nothing pressed changes nothing', async () => {
  await open();
  await learn();
  await key('Leave it as it is').click();
  expect(await pedal()).toBeNull();
  await learn();
  foot({ key: 'MediaTrackNext', code: 'MediaTrackNext' });
  await key('It has no second switch').click();
  await expect.poll(pedal).toEqual({ press: ['MediaTrackNext'], undo: [] });
  await expect.element(page.getByRole('definition').nth(0)).toHaveTextContent('Media Track Next');
});

test('what was learnt can be tried, press by press, and logs nothing', async () => {
  await changeSettings(shop.book, { pedal: { press: ['KeyB'], undo: ['PageDown'] } }, seven);
  await open();
  const tried = page.getByRole('status').last();
  await expect.element(tried).toHaveTextContent('Press a pedal.');
  foot({ key: 'b', code: 'KeyB' });
  await expect.element(tried).toHaveTextContent('Filled, All good or Save');
  foot({ key: 'b', code: 'KeyB' });
  await expect.element(tried).toHaveTextContent('Filled, All good or Save, 2 times');
  foot(pageDown);
  await expect.element(tried).toHaveTextContent('Undo or Back');
  atMs += 1_000;
  keyDown({ key: '2', code: 'Digit2' }, atMs);
  await expect.element(tried).toHaveTextContent('All good for mould 2');
  expect(await shop.book.db.count('entries')).toBe(0);
});

test('one press leads back to the usual keys', async () => {
  await changeSettings(shop.book, { pedal: { press: ['KeyB'], undo: ['KeyA'] } }, seven);
  await open();
  await key('Back to the usual keys').click();
  await expect.poll(pedal).toBeNull();
  await expect.poll(() => key('Back to the usual keys').query()).toBeNull();
});

test('it warns of remotes that a page cannot hear, before one is bought', async () => {
  await open();
  await expect
    .element(page.getByText(/Camera-shutter remotes send volume keys/))
    .toHaveTextContent('A page cannot see those.');
});
