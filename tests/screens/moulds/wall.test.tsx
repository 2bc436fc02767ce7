import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Mould } from '#model/mould.ts';
import { MouldsScreen } from '#screens/moulds/MouldsScreen.tsx';
import { setDeleted } from '#store/heads.ts';
import { aMould, type Fill, pourEvening, seven } from '../../hands/evening.ts';
import { oddNames } from '../../hands/hostile.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

const day = 86_400_000;
let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
});

/** A mould without the cold flag: every shot counts as warm. */
const silicone = (name: string, closed: number[] = []) =>
  aMould(shop.book, name, { rows: 2, cols: 2 }, { material: 'silicone', closed });
const shots = (mould: Mould, times: number, gave: string): Fill[] =>
  Array.from({ length: times }, () => ({ mould, gave }));
const pour = (fills: Fill[], at = seven) => pourEvening(shop.book, { fills, at });
const card = (name: string | RegExp) => page.getByRole('link', { name });
const names = () =>
  page
    .getByRole('heading', { level: 2 })
    .elements()
    .map(({ textContent }) => textContent);

describe('the order of the wall', () => {
  test('is by the least to be expected, not by the share; what cannot tell hangs last', async () => {
    const few = await silicone('Few');
    const short = await silicone('Short run');
    const sure = await silicone('Sure');
    const worse = await silicone('Worse');
    await pour([
      ...shots(few, 2, 'gggg'),
      // 16 of 16 good.
      ...shots(short, 4, 'gggg'),
      // 76 of 80 good: a smaller share, a larger least.
      ...shots(sure, 16, 'gggg'),
      ...shots(sure, 4, 'gsgg'),
    ]);
    await pour([
      // 40 of 80 good.
      ...shots(worse, 20, 'sgsg'),
    ]);
    await silicone('Never poured');
    show(shop, <MouldsScreen />);
    await expect.poll(names).toEqual(['Worse', 'Short run', 'Sure', 'Few', 'Never poured']);
    await expect.element(card(/^Few/)).toHaveTextContent(/8 of 8 good.*too few to tell/);
    await expect.element(card(/^Never/)).toHaveTextContent(/No warm shot yet.*too few to tell/);
  });

  test('leaves out a mould that was taken off', async () => {
    const gone = await silicone('Gone');
    await silicone('Here');
    await setDeleted(shop.book, 'moulds', gone.id, seven, seven);
    show(shop, <MouldsScreen />);
    await expect.poll(names).toEqual(['Here']);
  });
});

describe('a card', () => {
  test('counts what was logged, over every session, without closed and unchecked ones', async () => {
    const mould = await silicone('Grub 50');
    await pour([...shots(mould, 3, 'gsgg'), ...shots(mould, 1, 'gcnd')], seven - day);
    await pour([...shots(mould, 2, 'gsgg')]);
    show(shop, <MouldsScreen />);
    // Good 3 x 3 + 1 + 2 x 3 = 16, looked at 12 + 2 + 8 = 22; cavity 2 bad in 5 of 5.
    await expect.element(card(/^Grub 50/)).toHaveTextContent(/16 of 22 good/);
    await expect
      .element(card(/^Grub 50/))
      .toHaveTextContent(/Cavity 2 fails more than its neighbours: 5 bad of 5$/);
    await expect
      .element(page.getByRole('img', { name: /^Grub 50, cavity 1: 0 bad of 6, cavity 2: 5 bad/ }))
      .toBeVisible();
  });

  test('gives the range that Wilson’s formula gives for sixteen good of sixteen', async () => {
    const mould = await silicone('Short run');
    await pour(shots(mould, 4, 'gggg'));
    show(shop, <MouldsScreen />);
    // All good: lower end n / (n + z²), Newcombe 1998; 16 results of 4 alike by 0.2 are worth
    // 16 / 1.6 = 10, z² of 90 % is 2.706: 0.787.
    await expect
      .element(page.getByRole('img', { name: '100 of 100 good, expect 79 to 100' }))
      .toBeVisible();
  });

  test('with cold shots counts the warm ones only', async () => {
    // 300 g take about 30 K from one shot: the first is cold, those right after it are warm.
    const mould = await aMould(shop.book, 'Light', { rows: 2, cols: 2 }, { massG: 300 });
    await pour([...shots(mould, 1, 'ssss'), ...shots(mould, 3, 'gggg')]);
    show(shop, <MouldsScreen />);
    await expect.element(card(/^Light/)).toHaveTextContent(/12 of 12 good/);
  });

  test('names closed cavities first, and what nobody looked at when no cavity stands apart', async () => {
    const closed = await silicone('Closed', [3]);
    const unchecked = await silicone('Unchecked');
    await silicone('Two closed', [1, 4]);
    await pour([...shots(closed, 3, 'gscg'), ...shots(unchecked, 3, 'ggnn')]);
    show(shop, <MouldsScreen />);
    await expect.element(card(/^Closed/)).toHaveTextContent(/Cavity 3 closed off$/);
    await expect.element(card(/^Two closed/)).toHaveTextContent(/2 cavities closed off$/);
    await expect.element(card(/^Unchecked/)).toHaveTextContent(/6 not checked$/);
  });

  test('is drawn on a scale that holds it, the same for the whole wall', async () => {
    const bad = await silicone('Bad');
    const good = await silicone('Good');
    await pour([...shots(bad, 10, 'gsss'), ...shots(good, 10, 'gggg')]);
    show(shop, <MouldsScreen />);
    await expect.element(card(/^Bad/)).toHaveTextContent(/10 of 40 good/);
    const scales = [...document.querySelectorAll<HTMLElement>('[style*="--lo"]')].map(
      ({ style }) => [style.getPropertyValue('--from'), style.getPropertyValue('--p')],
    );
    expect(scales).toEqual([
      ['0', '25'],
      ['0', '100'],
    ]);
  });

  test.each(oddNames)('shows the name %s letter by letter', async (name) => {
    await silicone(name);
    const root = show(shop, <MouldsScreen />);
    await expect.poll(() => root.querySelector('h2')?.textContent).toBe(name);
    expect(root.querySelector('img')).toBeNull();
  });
});

test('an empty wall has nothing but the key that adds a mould', async () => {
  show(shop, <MouldsScreen />);
  await expect.element(card('Add a mould')).toHaveAttribute('href', '#/mould-facts/new');
  expect(names()).toEqual([]);
});
