import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { Notices } from '#app/Notices.tsx';
import type { SharedMix } from '#model/shared-mix.ts';
import { ColoursScreen } from '#screens/colours/ColoursScreen.tsx';
import { TakeMixScreen } from '#screens/colours/TakeMixScreen.tsx';
import { headsOf } from '#store/heads.ts';
import { packMix } from '#store/mix-parcel.ts';
import { keepSentMix } from '#store/sent-mix-in.ts';
import { sentMixes } from '#store/sent-mixes.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aSafety, aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  await page.viewport(360, 740);
  shop = { ...(await aShop()), safety: aSafety({ isPromised: true }) };
});

const reed = (name = 'Reed'): SharedMix => ({
  made: 'mix',
  form: 1,
  name,
  baseMl: 240,
  materials: [{ name: 'Peat', kind: 'colourant', flake: null, swatch: '#5a4630', unit: 'mL' }],
  sides: [
    {
      role: 'only',
      name,
      swatch: '#6b7a3a',
      plastisol: null,
      doses: [{ material: 0, amount: 4, unit: 'drop', isPinned: false }],
    },
  ],
});

const button = (name: string | RegExp) => page.getByRole('button', { name });
const link = (name: string | RegExp) => page.getByRole('link', { name });
const packedNow = () => sentMixes(shop.book).map(({ packed }) => packed);
/** The lines over a page of the desk. */
const look = (at: 'pour' | 'moulds', isPouring = false) =>
  show(shop, <Notices at={at} address={`#/${at}`} isPouring={isPouring} wasAtTable={true} />);

describe('a mix whose link was opened while a session ran', () => {
  test('is offered on Pour once the session is over, and not again after Not now', async () => {
    const packed = await packMix(reed());
    keepSentMix(shop.book, packed);
    const root = look('pour');
    await expect.element(page.getByText('A mix was sent to you while you poured.')).toBeVisible();
    await expect.element(link('Look at it')).toHaveAttribute('href', `#/take-mix/${packed}`);
    expect(await faults(root)).toEqual([]);
    await button('Not now').click();
    await expect.element(link('Look at it')).not.toBeInTheDocument();
    look('pour');
    await expect.element(page.getByText('A mix was sent to you')).not.toBeInTheDocument();
    // Kept all the same: Colours has it.
    show(shop, <ColoursScreen />);
    await expect.element(link(/^Reed/)).toHaveAttribute('href', `#/take-mix/${packed}`);
  });

  test('is one press away beside the session, from the line that leads back to the table', async () => {
    const packed = await packMix(reed());
    keepSentMix(shop.book, packed);
    await page.viewport(320, 568);
    look('moulds', true);
    await expect
      .element(link('The mix sent to you'))
      .toHaveAttribute('href', `#/take-mix/${packed}`);
    await expect.element(link('Back to the table')).toBeVisible();
    expect(isNoWider()).toBe(true);
  });

  test('goes from the list once it is taken in', async () => {
    const packed = await packMix(reed());
    keepSentMix(shop.book, packed);
    show(shop, <TakeMixScreen packed={packed} />);
    await button('Take it as a new colour').click();
    await expect.poll(() => window.location.hash).toMatch(/^#\/colour\//);
    expect(packedNow()).toEqual([]);
    expect(await headsOf(shop.book, 'colourways')).toMatchObject([{ name: 'Reed' }]);
  });

  test('is put away by one press and kept after all by the next', async () => {
    const packed = await packMix(reed());
    keepSentMix(shop.book, packed);
    show(shop, <TakeMixScreen packed={packed} />);
    await button('Put it away').click();
    await expect.element(button('Put away. Keep it after all')).toBeVisible();
    expect(packedNow()).toEqual([]);
    await button('Put away. Keep it after all').click();
    await expect.element(button(/^Put it away$/)).toBeVisible();
    expect(packedNow()).toEqual([packed]);
  });

  test('that was opened from no table has no such key', async () => {
    show(shop, <TakeMixScreen packed={await packMix(reed())} />);
    await expect.element(button('Take it as a new colour')).toBeVisible();
    await expect.element(button('Put it away')).not.toBeInTheDocument();
  });

  test('is kept with two others at the most, each once, and all three are listed', async () => {
    const packed = await Promise.all(
      ['One', 'Two', 'Three', 'Four'].map((it) => packMix(reed(it))),
    );
    for (const one of [...packed, packed[2] ?? '']) keepSentMix(shop.book, one);
    expect(packedNow()).toEqual([packed[2], packed[3], packed[1]]);
    look('pour');
    await expect.element(link('Look at it')).toHaveAttribute('href', '#/take-mix/');
    const root = show(shop, <TakeMixScreen packed={null} />);
    for (const name of ['Two', 'Three', 'Four']) {
      await expect.element(link(new RegExp(`^${name}`))).toBeVisible();
    }
    expect(await faults(root)).toEqual([]);
  });
});

describe('a hostile link that was opened while a session ran', () => {
  const hostile: [string, string, string][] = [
    ['of two million letters', 'A'.repeat(2_000_000), 'This link is too long for a mix.'],
    ['of a script', '"><script>alert(1)</script>', 'This link is damaged.'],
    ['cut off', 'q1bKTUxOVbJSys2sUNJRSssvylWyMqwFAA', 'This'],
  ];

  test.each(hostile)(
    '%s is kept small and refused with a sentence',
    async (_what, packed, says) => {
      keepSentMix(shop.book, packed);
      expect(packedNow()[0]?.length).toBeLessThan(12_002);
      show(shop, <ColoursScreen />);
      await expect.element(page.getByRole('alert')).toHaveTextContent(says);
      await button('Clear it away').click();
      await expect.element(page.getByRole('alert')).not.toBeInTheDocument();
      expect(packedNow()).toEqual([]);
    },
  );

  test('is told once where it is looked at, and not offered again', async () => {
    keepSentMix(shop.book, 'not-a-mix');
    show(shop, <TakeMixScreen packed="not-a-mix" />);
    await expect.element(page.getByRole('alert')).toHaveTextContent('This link is damaged.');
    expect(packedNow()).toEqual([]);
  });

  test('of whatever the device remembers no more than three, none of them long, is looked at', async () => {
    const found = `\n \n${'A'.repeat(50_000)}\nB\n C\nB\nD\nE`;
    localStorage.setItem(`${shop.book.db.name} sent mixes`, found);
    expect(sentMixes(shop.book)).toEqual([
      { packed: 'A'.repeat(12_001), isLater: false },
      { packed: 'B', isLater: false },
      { packed: 'C', isLater: true },
    ]);
  });
});
