import { beforeEach, describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Material } from '#model/material.ts';
import type { Mix } from '#model/mix.ts';
import { deviceKeys } from '#platform/keys.ts';
import { DropsScreen } from '#screens/colours/DropsScreen.tsx';
import { IdeasScreen } from '#screens/colours/IdeasScreen.tsx';
import { keepCounted } from '#store/glass.ts';
import { headsOf } from '#store/heads.ts';
import { keepMix } from '#store/mixes.ts';
import { changeSettings } from '#store/settings.ts';
import { moveStock } from '#store/stock.ts';
import { aColourway, aMould, morning, pourEvening, seven } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aDraft, aMaterial, cupMl } from '../../hands/mixes.ts';
import { keyDown, pageDown } from '../../hands/pedal.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;
let mix: Mix;
let black: Material;
let brown: Material;
let ticks: number;
let asked: unknown[];

beforeEach(async () => {
  await page.viewport(360, 740);
  shop = await aShop();
  ticks = 0;
  asked = [];
  shop.keys = deviceKeys;
  shop.sound = {
    ...shop.sound,
    canSound: (_tell, music) => {
      asked.push(music);
      return () => {};
    },
    logged: () => {
      ticks += 1;
    },
  };
  black = await aMaterial(shop.book, 'Black');
  brown = await aMaterial(shop.book, 'Brown');
  const peat = await aColourway(shop.book, 'Peat', '#5b4029');
  const draft = aDraft([
    [black, 12],
    [brown, 3],
  ]);
  mix = await keepMix(shop.book, peat.id, draft, seven);
});

const drop = () => page.getByRole('button', { name: /^Drop/ });
const counter = () => <DropsScreen mixId={mix.id} volumeMl={cupMl} />;
async function counted(count: number): Promise<void> {
  await expect.element(drop()).toHaveTextContent(new RegExp(`^Drop${count}(of|all|\\d)`));
}

describe('the drop counter', () => {
  test('counts by one key as fast as drops fall, ticks at each five and at the last', async () => {
    show(shop, counter());
    await counted(0);
    const root = drop().element();
    expect(root.getBoundingClientRect().height).toBeGreaterThan(400);
    for (let one = 0; one < 12; one++) await userEvent.click(root);
    await counted(12);
    await expect.element(page.getByText('all 12 are in')).toBeVisible();
    // At 5, at 10 and at 12.
    expect(ticks).toBe(3);
    expect(asked).toEqual([null]);
  });

  test('takes a drop back, never below none', async () => {
    show(shop, counter());
    await drop().click();
    await drop().click();
    await page.getByRole('button', { name: 'Undo a drop' }).click();
    await counted(1);
    await page.getByRole('button', { name: 'Undo a drop' }).click();
    await page.getByRole('button', { name: 'Undo a drop' }).click();
    await counted(0);
    expect(shop.felt).toContain('refuse');
  });

  test('is counted by the pedal, learnt or not', async () => {
    const pedal = { press: ['KeyB'], undo: ['KeyA'] };
    await changeSettings(shop.book, { pedal }, seven);
    show(shop, counter());
    await counted(0);
    keyDown(pageDown, 1_000);
    keyDown({ key: 'b', code: 'KeyB' }, 2_000);
    await counted(2);
    keyDown({ key: 'a', code: 'KeyA' }, 3_000);
    await counted(1);
  });

  test('goes on after a reload where it was, and begins anew for another volume', async () => {
    show(shop, counter());
    for (let one = 0; one < 4; one++) await drop().click();
    await counted(4);
    show(shop, counter());
    await counted(4);
    await page.getByRole('button', { name: 'Next: Brown' }).click();
    await counted(0);
    await drop().click();
    show(shop, counter());
    await counted(4);
    show(shop, <DropsScreen mixId={mix.id} volumeMl={cupMl * 2} />);
    await counted(0);
    await expect.element(page.getByText('of 24')).toBeVisible();
  });

  test('begins anew by one key, and brings the count back by another until a drop falls', async () => {
    show(shop, counter());
    for (let one = 0; one < 4; one++) await drop().click();
    await page.getByRole('button', { name: 'Next: Brown' }).click();
    await drop().click();
    await page.getByRole('button', { name: 'Begin anew' }).click();
    await counted(0);
    await expect.element(page.getByRole('heading', { name: 'Black' })).toBeVisible();
    expect(page.getByRole('button', { name: 'Begin anew' }).query()).toBeNull();
    show(shop, counter());
    await counted(0);
    for (let one = 0; one < 3; one++) await drop().click();
    await page.getByRole('button', { name: 'Begin anew' }).click();
    await page.getByRole('button', { name: 'Bring back the count' }).click();
    await counted(3);
    await page.getByRole('button', { name: 'Begin anew' }).click();
    await drop().click();
    await counted(1);
    expect(page.getByRole('button', { name: 'Bring back the count' }).query()).toBeNull();
  });

  test('is empty for the next cup once all of it was in and the page was left', async () => {
    show(shop, counter());
    await counted(0);
    for (let one = 0; one < 12; one++) await userEvent.click(drop().element());
    await counted(12);
    // One colourant is still to come: nothing is forgotten yet.
    show(shop, counter());
    await expect.element(page.getByRole('heading', { name: 'Brown' })).toBeVisible();
    for (let one = 0; one < 3; one++) await drop().click();
    await expect.element(page.getByText('all 3 are in')).toBeVisible();
    show(shop, counter());
    await expect.element(page.getByRole('heading', { name: 'Black' })).toBeVisible();
    await counted(0);
  });

  test('is forgotten after some hours, and not before', async () => {
    show(shop, counter());
    for (let one = 0; one < 4; one++) await drop().click();
    await counted(4);
    shop.set(morning + 3 * 3_600_000);
    show(shop, counter());
    await counted(4);
    shop.set(morning + 5 * 3_600_000);
    show(shop, counter());
    await counted(0);
  });

  test('has no fault that axe knows and fits every glass without scrolling', async () => {
    for (const [width, height] of [
      [320, 568],
      [360, 740],
      [740, 360],
      [1024, 768],
    ] as const) {
      await page.viewport(width, height);
      keepCounted(shop.book, `${mix.id} ${cupMl}`, [4], morning);
      const root = show(shop, counter());
      await counted(4);
      for (const palette of ['chalk', 'lamp']) {
        document.documentElement.dataset.theme = palette;
        expect(await faults(root)).toEqual([]);
      }
      document.documentElement.dataset.theme = 'chalk';
      expect(isNoWider()).toBe(true);
      for (const key of root.querySelectorAll('button, a')) {
        const box = key.getBoundingClientRect();
        expect(box.bottom, `${width}x${height}`).toBeLessThanOrEqual(height);
        expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(48);
      }
    }
  });
});

describe('what shall I pour', () => {
  test('keeps ideas until they are poured, and brings them back', async () => {
    const root = show(shop, <IdeasScreen />);
    await page.getByLabelText('An idea').fill('A darker tail.');
    await page.getByRole('button', { name: 'Add the idea' }).click();
    await page.getByRole('button', { name: 'Poured: A darker tail.' }).click();
    await expect.poll(async () => (await headsOf(shop.book, 'ideas'))[0]?.doneAt).toBe(morning);
    await page.getByRole('button', { name: 'Back to the ideas' }).click();
    await expect.poll(async () => (await headsOf(shop.book, 'ideas'))[0]?.doneAt).toBeNull();
    await page.getByRole('button', { name: 'Take off: A darker tail.' }).click();
    await expect.poll(async () => (await headsOf(shop.book, 'ideas')).length).toBe(0);
    await page.getByRole('button', { name: 'Bring back: A darker tail.' }).click();
    await expect.poll(async () => (await headsOf(shop.book, 'ideas')).length).toBe(1);
    expect(await faults(root)).toEqual([]);
  });

  test('suggests one colour that is on hand and was not poured lately', async () => {
    const day = 86_400_000;
    const mould = await aMould(shop.book, 'Grub 50');
    const pour = async (name: string, daysAgo: number) => {
      const colourway = await aColourway(shop.book, name, '#5b4029');
      const material = await aMaterial(shop.book, `${name} colour`);
      await keepMix(shop.book, colourway.id, aDraft([[material, 5]]), seven - 90 * day);
      const at = seven - daysAgo * day;
      await pourEvening(shop.book, { colourway, at, fills: [{ mould, gave: 'gggg' }] });
      return material;
    };
    await pourEvening(shop.book, {
      colourway: (await headsOf(shop.book, 'colourways'))[0] as never,
      fills: [{ mould, gave: 'gggg' }],
    });
    await pour('Slate', 30);
    const gone = await pour('Moss', 60);
    await pour('Rust', 5);
    show(shop, <IdeasScreen />);
    await expect
      .element(page.getByText('Moss was not poured for 8 weeks, and all of it is on hand.'))
      .toBeVisible();
    const counted = { kind: 'counted', level: 0 } as const;
    await moveStock(shop.book, gone.id, counted, { at: seven, writtenAt: seven, note: '' });
    show(shop, <IdeasScreen />);
    await expect
      .element(page.getByText('Slate was not poured for 4 weeks, and all of it is on hand.'))
      .toBeVisible();
  });
});
