import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Mould } from '#model/mould.ts';
import { MouldScreen } from '#screens/moulds/MouldScreen.tsx';
import { changeSettings } from '#store/settings.ts';
import { aMould, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

async function open(mould: Mould) {
  show(shop, <MouldScreen mouldId={mould.id} />);
  await page.getByText('What the table goes by').click();
}
const says = (words: string | RegExp) =>
  expect.element(page.getByText(words, { exact: true })).toBeVisible();

describe('what the table goes by', () => {
  test('says which of it is guessed', async () => {
    await open(await aMould(shop.book, 'Grub 50', { rows: 4, cols: 2 }));
    // 8 cavities of aluminium make the 2.5 kg block of the worked example (method notes, section 3).
    await says('Weight about 2.5 kg, guessed from 8 cavities.');
    await says(
      /^A shot is cold while the mould is under 15 °C above the shop\. How it warms is worked/,
    );
    await says(
      'Set time 3:00 to begin with. Your own opens of good shots take over: 0 of 5 so far.',
    );
    await says('9 mL a bait (guessed), 12 mL sprue (guessed).');
  });

  test('says what the person measured and chose', async () => {
    const facts = { massG: 3_240, partMl: 7.5, setSec: 195, heat: { tauSec: 2_000, uptake: 0.8 } };
    await open(await aMould(shop.book, 'Grub 50', { rows: 4, cols: 2 }, facts));
    await says('Weight 3.2 kg, as you weighed it.');
    await says(/learnt from your thermometer readings\.$/);
    await says('Set time 3:15, your choice.');
    await says('7.5 mL a bait (measured), 12 mL sprue (guessed).');
  });

  test('learns the set time from five opens of good shots', async () => {
    const mould = await aMould(shop.book, 'Shad 7');
    const fills = Array.from({ length: 5 }, () => ({ mould, gave: 'gggg' }));
    await pourEvening(shop.book, { fills });
    await open(mould);
    await says('Set time 3:00, the middle of your last 5 opens of good shots.');
  });

  test('counts a line of 15 °C as 27 °F, a difference and no temperature', async () => {
    await changeSettings(shop.book, { tempUnit: 'F' }, seven);
    await open(await aMould(shop.book, 'Grub 50'));
    await says(/is under 27 °F above the shop/);
  });

  test.each([
    ['silicone', 92],
    ['stone', 78],
  ] as const)('has no cold flag for %s, with the reason', async (material, skin) => {
    await open(await aMould(shop.book, 'Shad 7', { rows: 2, cols: 2 }, { material }));
    // Contact temperatures for 165 °C on 20 °C: row A17 of the method notes.
    await says(
      `No cold flag: ${material} hardly chills the plastic. The bait's skin meets it at ${skin} °C, cold aluminium at 24 °C.`,
    );
  });
});
