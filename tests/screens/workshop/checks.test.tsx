import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { WorkshopScreen } from '#screens/workshop/WorkshopScreen.tsx';
import { changeSettings, type SettingsFacts } from '#store/settings.ts';
import { seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

const row = (title: string) =>
  page
    .getByRole('listitem')
    .filter({ has: page.getByRole('heading', { name: title, exact: true }) });

async function open(first: Partial<SettingsFacts> = {}): Promise<void> {
  await changeSettings(shop.book, first, seven);
  show(shop, <WorkshopScreen />);
}

test.each([
  ['Gloves', {}, 'usual'],
  ['Gloves', { keySize: 'largest' }, 'largest'],
  ['Sound', {}, 'Not checked yet.'],
  ['Sound', { music: 'elsewhere' }, 'Not heard yet.'],
  ['Sound', { music: 'none', hearing: 'heard' }, 'You hear it over everything.'],
  ['Sound', { hearing: 'watches' }, 'No sound at the table'],
  ['Pedal', {}, 'Usual keys: Page Down, Page Up, arrows.'],
  ['Pedal', { pedal: { press: ['KeyB'], undo: ['PageDown'] } }, 'Filled: B. Undo: Page Down.'],
  ['Pedal', { pedal: { press: ['UIKeyInputDownArrow'], undo: [] } }, 'Down Arrow. Undo: usual'],
] as const)('%s, set to %j, says %j', async (title, settings, says) => {
  await open(settings as Partial<SettingsFacts>);
  await expect.element(row(title)).toHaveTextContent(says);
});

test('each leads to its check', async () => {
  await open();
  for (const [name, hash] of [
    ['Check gloves', '#/glove-check'],
    ['Check sound', '#/sound-check'],
    ['Check pedal', '#/pedal-check'],
  ] as const) {
    await expect.element(page.getByRole('link', { name })).toHaveAttribute('href', hash);
  }
});
