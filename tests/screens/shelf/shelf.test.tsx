import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { PlaceBar } from '#app/PlaceBar.tsx';
import { ShelfScreen } from '#screens/shelf/ShelfScreen.tsx';
import { changeHead, headOf, setDeleted } from '#store/heads.ts';
import { changeSettings } from '#store/settings.ts';
import { aMould, morning, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { key, moved, onShelf, poured } from './shelf-page.ts';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
  await changeSettings(shop.book, { volumeUnit: 'mL' }, seven);
});

const jar = (name: string) => page.getByRole('link', { name: new RegExp(`^${name}`) });
const cards = () =>
  page
    .getByRole('main')
    .getByRole('link')
    .elements()
    .map(({ textContent }) => textContent);

describe('the shelf', () => {
  test('is a place of the bar once something is on it', async () => {
    show(shop, <PlaceBar at="shelf" />);
    await expect.element(page.getByRole('link', { name: 'Pour' })).toBeVisible();
    expect(page.getByRole('link', { name: 'Shelf' }).elements()).toHaveLength(0);
    await onShelf(shop, {});
    await expect
      .element(page.getByRole('link', { name: 'Shelf' }))
      .toHaveAttribute('aria-current', 'page');
  });

  test('says so when it is empty, and leads to the first material', async () => {
    show(shop, <ShelfScreen />);
    await expect.element(page.getByText(/^Nothing on the shelf yet/)).toBeVisible();
    await expect
      .element(page.getByRole('link', { name: 'Add a material' }))
      .toHaveAttribute('href', '#/material-facts/new');
  });

  test('tells pours that are left by what this shop took for its mixes', async () => {
    const plastisol = await onShelf(shop, { name: 'Clear', kind: 'plastisol' }, 3_400);
    const mould = await aMould(shop.book, 'Grub 50');
    await poured(shop, mould, plastisol, [400, 500, 600]);
    show(shop, <ShelfScreen />);
    // 1,900 mL are left, and the middle mix took 500.
    await expect.element(jar('Clear')).toHaveTextContent('3 pours left');
    await poured(shop, mould, plastisol, [700, 500]);
    await expect.element(jar('Clear')).toHaveTextContent('1 pour left');
  });

  test('tells the level alone while that is not known, and says what was never counted', async () => {
    const plastisol = await onShelf(shop, { name: 'Clear', kind: 'plastisol' }, 3_400);
    await onShelf(shop, { name: 'Salt', kind: 'salt', unit: 'g' }, 620);
    await onShelf(shop, { name: 'Anise', kind: 'scent' });
    await poured(shop, await aMould(shop.book, 'Grub 50'), plastisol, [400, 500]);
    show(shop, <ShelfScreen />);
    await expect.element(jar('Clear')).toHaveTextContent('2.5 L');
    await expect.element(jar('Salt')).toHaveTextContent('620 g');
    await expect.element(jar('Anise')).toHaveTextContent('not counted yet');
  });

  test('speaks the units of the person', async () => {
    // 473.176473 mL are 2 cups and 16 fl oz; 100 g are 3.5274 oz (NIST Handbook 44, App. C).
    await onShelf(shop, { name: 'Clear', kind: 'plastisol' }, 473.176473);
    await onShelf(shop, { name: 'Salt', kind: 'salt', unit: 'g' }, 100);
    await changeSettings(shop.book, { volumeUnit: 'cup', massUnit: 'oz' }, seven);
    show(shop, <ShelfScreen />);
    await expect.element(jar('Clear')).toHaveTextContent('2 cups');
    await expect.element(jar('Salt')).toHaveTextContent('3.5 oz');
    await changeSettings(shop.book, { volumeUnit: 'floz' }, seven);
    await expect.element(jar('Clear')).toHaveTextContent('16 fl oz');
    await expect.element(page.getByText(/NIST Handbook 44/)).toBeVisible();
  });

  test('draws each jar to its level, and never below its foot', async () => {
    const material = await onShelf(shop, { package: { qty: 400, cents: 100 } }, 400);
    await moved(shop, material, { kind: 'lost', qty: 100 }, seven);
    show(shop, <ShelfScreen />);
    const share = () =>
      document.querySelector<HTMLElement>('main a span')?.style.getPropertyValue('--share');
    await expect.poll(share).toBe('0.750');
    await moved(shop, material, { kind: 'lost', qty: 400 }, seven);
    await expect.poll(share).toBe('0.000');
    await expect.element(jar('Soot black')).toHaveTextContent('100 mL missing');
  });

  test('has what was set aside last and leaves out what was taken off', async () => {
    await onShelf(shop, { name: 'Old green', isAside: true }, 40);
    await onShelf(shop, { name: 'Peat', kind: 'flake', unit: 'g' }, 40);
    const gone = await onShelf(shop, { name: 'Gone' }, 40);
    await onShelf(shop, { name: 'Ash' }, 40);
    await setDeleted(shop.book, 'materials', gone.id, seven, seven);
    show(shop, <ShelfScreen />);
    await expect
      .poll(() => cards().slice(0, 3))
      .toEqual(['Ash40 mL', 'Peat40 g', 'Old green40 mL, set aside']);
  });
});

describe('what to buy', () => {
  async function threeToBuy() {
    const black = await onShelf(shop, { reorderAt: 20, package: { qty: 118, cents: 980 } }, 15);
    const salt = await onShelf(shop, { name: 'Salt', kind: 'salt', unit: 'g' }, 620);
    await moved(shop, salt, { kind: 'counted', level: 0 }, seven);
    const clear = await onShelf(shop, { name: 'Clear', kind: 'plastisol' }, 1_900);
    await poured(shop, await aMould(shop.book, 'Grub 50'), clear, [500, 500, 500]);
    await onShelf(shop, { name: 'Enough', reorderAt: 20 }, 100);
    return { black, salt };
  }

  const boxes = () =>
    page
      .getByRole('checkbox')
      .elements()
      .map(({ textContent }) => textContent);

  test('is what is out, at its point, or will not do for a pour, under the words of its kind', async () => {
    await threeToBuy();
    show(shop, <ShelfScreen />);
    await expect
      .poll(boxes)
      .toEqual([
        'ClearLow: less than a pour.',
        'Soot blackLow: 15 mL. Comes as 118 mL.',
        'SaltOut.',
      ]);
    await expect.element(page.getByRole('heading', { name: 'To buy 3' })).toBeVisible();
    await expect.element(page.getByText('4 materials, 3 things to buy')).toBeVisible();
  });

  test('is ticked, the tick is kept, and a purchase ends both', async () => {
    const { black } = await threeToBuy();
    show(shop, <ShelfScreen />);
    const box = page.getByRole('checkbox', { name: /^Soot black/ });
    await box.click();
    await expect.element(box).toBeChecked();
    expect((await headOf(shop.book, 'materials', black.id))?.tickedAt).toBe(morning);
    await box.click();
    await expect.element(box).not.toBeChecked();
    await box.click();
    await expect.element(box).toBeChecked();
    await moved(shop, black, { kind: 'bought', qty: 118, cents: 980, lot: '' }, morning + 1);
    await expect.poll(boxes).toHaveLength(2);
    await changeHead(shop.book, 'materials', black.id, { reorderAt: 200 }, morning + 2);
    await expect.element(box).not.toBeChecked();
  });

  test('is copied and shared as plain text', async () => {
    await threeToBuy();
    show(shop, <ShelfScreen />);
    await page.getByRole('checkbox', { name: /^Salt/ }).click();
    await expect.element(page.getByRole('checkbox', { name: /^Salt/ })).toBeChecked();
    await key('Copy the list').click();
    await expect.element(page.getByText('Copied.')).toBeVisible();
    await key('Share it').click();
    const text = [
      'To buy',
      'Plastisol\n[ ] Clear. Low: less than a pour.',
      'Colours\n[ ] Soot black. Low: 15 mL. Comes as 118 mL.',
      'Salt\n[x] Salt. Out.',
    ].join('\n\n');
    expect(shop.handedOn).toEqual([
      ['copy', text],
      ['share', text],
    ]);
  });

  test('can be marked by hand where the device does not copy', async () => {
    await threeToBuy();
    shop.share = { can: () => false, share: async () => false, copy: async () => false };
    show(shop, <ShelfScreen />);
    await key('Copy the list').click();
    await expect.element(page.getByText(/^This device did not copy it/)).toBeVisible();
    await expect.element(page.getByText(/\[ \] Soot black\. Low: 15 mL/)).toBeVisible();
    expect(key('Share it').elements()).toHaveLength(0);
  });
});
