import { expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { tableOf } from '#calc/table.ts';
import { PourScreen } from '#screens/pour/PourScreen.tsx';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { WorkshopScreen } from '#screens/workshop/WorkshopScreen.tsx';
import { entriesOf } from '#store/sessions.ts';
import { changeSettings, settingsOf } from '#store/settings.ts';
import { startPouring } from '#store/start.ts';
import { aMould, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show } from '../../hands/show.tsx';
import { aTable, mainKey, mainSays, type TableMoulds } from '../../hands/table.tsx';

const one: TableMoulds = [['Grub 50', 2, 4]];
const two = { people: ['Ada', 'Ben'] };
const key = (name: string | RegExp) => page.getByRole('button', { name });

test('with two names one press tells who pours, and Undo takes it back by name', async () => {
  const table = await aTable(one, two);
  table.pass(1_000);
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  await key('Ada pours').click();
  await expect.element(key(/^Ben pours/)).toBeVisible();
  await expect.element(key(/^Undo.*Ben.*pours/)).toBeVisible();
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  await mainSays(/^Filled/);
  table.pass(400);
  mainKey().click();
  await mainSays(/^Setting/);
  const { pourers, shots } = tableOf(await entriesOf(table.shop.book, table.sessionId));
  expect(pourers.map(({ name }) => name)).toEqual(['Ada', 'Ben']);
  expect(shots).toHaveLength(1);
});

test('with one name, or none, the table asks nothing', async () => {
  const table = await aTable(one, { people: ['Ada'] });
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  await expect.element(key('Finish')).toBeVisible();
  expect(key(/pours/).elements()).toEqual([]);
  expect(tableOf(await entriesOf(table.shop.book, table.sessionId)).pourers).toEqual([]);
});

test('who pours is chosen before the session begins, and its page says who poured how much', async () => {
  const shop = await aShop();
  const { book } = shop;
  const mould = await aMould(book, 'Grub 50');
  await pourEvening(book, { fills: [{ mould, gave: 'gggg' }], at: seven - 86_400_000 });
  await changeSettings(book, two, seven);
  show(shop, <PourScreen />);
  await expect.element(key('Ada pours')).toHaveAttribute('aria-pressed', 'true');
  await key('Ben pours').click();
  await expect.element(key('Ben pours')).toHaveAttribute('aria-pressed', 'true');
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
  const sessionId = await startPouring(book, beginning, seven);
  expect(tableOf(await entriesOf(book, sessionId)).pourers).toEqual([{ at: seven, name: 'Ben' }]);
  show(shop, <SessionScreen sessionId={sessionId} />);
  await expect.element(page.getByText('Ben pours')).toBeVisible();
});

test('two names alike, or one too long for a key, are refused beside their field and nothing is lost', async () => {
  const shop = await aShop();
  show(shop, <WorkshopScreen />);
  await page.getByText('Who pours', { exact: true }).click();
  await page.getByLabelText('First name').fill('Ada');
  await page.getByLabelText('Second name').fill(' Ada ');
  await key('Keep these names').click();
  await expect
    .element(page.getByLabelText('Second name'))
    .toHaveAccessibleDescription('Give each a name of their own.');
  await page.getByLabelText('Second name').fill('Bartholomew the Second');
  await key('Keep these names').click();
  await expect
    .element(page.getByLabelText('Second name'))
    .toHaveAccessibleDescription('Keep it to 12 letters: it must fit a key.');
  expect((await settingsOf(shop.book)).people).toBeUndefined();
  await page.getByLabelText('Second name').fill('Ben');
  await key('Keep these names').click();
  await expect.poll(async () => (await settingsOf(shop.book)).people).toEqual(['Ada', 'Ben']);
});
