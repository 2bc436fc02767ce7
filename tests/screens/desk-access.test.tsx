import type { ComponentChildren } from 'preact';
import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { GloveCheckScreen } from '#screens/checks/GloveCheckScreen.tsx';
import { PedalCheckScreen } from '#screens/checks/PedalCheckScreen.tsx';
import { SoundCheckScreen } from '#screens/checks/SoundCheckScreen.tsx';
import { ColourFactsScreen } from '#screens/colours/ColourFactsScreen.tsx';
import { ColoursScreen } from '#screens/colours/ColoursScreen.tsx';
import { MouldFactsScreen } from '#screens/moulds/MouldFactsScreen.tsx';
import { MouldScreen } from '#screens/moulds/MouldScreen.tsx';
import { MouldsScreen } from '#screens/moulds/MouldsScreen.tsx';
import { CautionsScreen } from '#screens/start/CautionsScreen.tsx';
import { LineUpScreen } from '#screens/start/LineUpScreen.tsx';
import { StartScreen } from '#screens/start/StartScreen.tsx';
import { InjectorFactsScreen } from '#screens/workshop/InjectorFactsScreen.tsx';
import { WorkshopScreen } from '#screens/workshop/WorkshopScreen.tsx';
import { YieldsScreen } from '#screens/yields/YieldsScreen.tsx';
import { addHead, setDeleted } from '#store/heads.ts';
import { aColourway, aMould, pourEvening, seven } from '../hands/evening.ts';
import { faults, isNoWider } from '../hands/faults.ts';
import { aShop, show, type TestShop } from '../hands/show.tsx';

let shop: TestShop;

beforeEach(async () => {
  shop = await aShop();
  const name = 'Aquickbrownfoxjumpsoverthelazydogwithoutasinglespaceanywhere';
  const mould = await aMould(shop.book, 'Leaf tail', { rows: 2, cols: 12 }, { closed: [7] });
  await aMould(shop.book, name, { rows: 6, cols: 2 }, { material: 'silicone' });
  const gone = await aMould(shop.book, `Old ${name.slice(4)}`);
  await setDeleted(shop.book, 'moulds', gone.id, seven, seven);
  const colourway = await aColourway(shop.book, 'Ink/rust', '#1c2733', '#8a3b1d');
  await aColourway(shop.book, name, '#5b4029');
  const facts = { name, capacityMl: 118, boreMm: 38.1, isTwin: true };
  await addHead(shop.book, 'injectors', facts, seven);
  const gave = ['sgggggcggggggsgggggggggn', 'gdggggcggggggggggggggggg'];
  const fills = [...gave, ...gave, ...gave].map((one) => ({ mould, gave: one }));
  await pourEvening(shop.book, { fills, colourway });
});

/** The page of the mould that was poured. */
async function poured(): Promise<ComponentChildren> {
  const [column] = await shop.book.db.getAll('columns');
  const mouldId = column?.moulds[0]?.mouldId;
  if (!mouldId) throw new Error('Nothing was poured.');
  return <MouldScreen mouldId={mouldId} />;
}

const sends = /^Add this/;
type Drawn = ComponentChildren | Promise<ComponentChildren>;
const screens: readonly [string, () => Drawn, (string | RegExp)[]][] = [
  ['the first screen', () => <StartScreen />, []],
  ['the choice of a shape', () => <StartScreen />, ['Log a pour now', 'Other']],
  ['the cautions', () => <CautionsScreen />, []],
  ['the line-up', () => <LineUpScreen />, [/^Leaf tail/]],
  ['the wall of moulds', () => <MouldsScreen />, []],
  ['a mould', poured, ['All']],
  ['a change of a mould', poured, ['Log a change', 'Earlier']],
  ['yields', () => <YieldsScreen />, [/^Sessions/, /^Side by side/]],
  ['the form of a mould, refused', () => <MouldFactsScreen mouldId={null} />, ['Anywhere', sends]],
  ['the form of a mould', () => <MouldFactsScreen mouldId={null} />, ['Across first']],
  ['the wall of colours', () => <ColoursScreen />, []],
  [
    'the form of a colour, refused',
    () => <ColourFactsScreen colourwayId={null} />,
    ['Two sides', sends],
  ],
  ['the workshop', () => <WorkshopScreen />, []],
  ['the glove check', () => <GloveCheckScreen />, []],
  ['the dots of the glove check', () => <GloveCheckScreen />, [/^Tap six dots/]],
  ['the sound check', () => <SoundCheckScreen />, ['No music', 'Louder please']],
  ['the pedal check', () => <PedalCheckScreen />, [/^Find my pedal/]],
  ['the form of an injector, refused', () => <InjectorFactsScreen injectorId={null} />, [sends]],
];

test.each(screens)(
  '%s has no fault that axe knows, in either palette, and fits 320 px',
  async (...by) => {
    const [, screen, presses] = by;
    await page.viewport(320, 568);
    const root = show(shop, await screen());
    for (const name of presses) await page.getByRole('button', { name }).first().click();
    await expect.element(page.getByRole('heading', { level: 1 })).toBeVisible();
    for (const palette of ['chalk', 'lamp']) {
      document.documentElement.dataset.theme = palette;
      expect(await faults(root), palette).toEqual([]);
    }
    document.documentElement.dataset.theme = 'chalk';
    expect(isNoWider()).toBe(true);
  },
);

test.each(screens)('%s has keys of 48 px at least, and no two lie on each other', async (...by) => {
  const [, screen, presses] = by;
  await page.viewport(360, 740);
  const root = show(shop, await screen());
  for (const name of presses) await page.getByRole('button', { name }).first().click();
  await expect.element(page.getByRole('heading', { level: 1 })).toBeVisible();
  // What is folded has keys too.
  for (const fold of root.querySelectorAll('details')) fold.open = true;
  const plan = root.querySelector('[aria-label="Plan of the mould"]');
  const keys = [...root.querySelectorAll<HTMLElement>('button, a, input, summary')].filter(
    (key) => !plan?.contains(key),
  );
  const boxes = keys.map(
    (key) => [key.textContent || key.id, key.getBoundingClientRect()] as const,
  );
  for (const [name, { width, height }] of boxes) {
    expect(Math.min(width, height), `${name} is ${width} x ${height}`).toBeGreaterThanOrEqual(48);
  }
  // The foot of a page stays in view and may lie over what is scrolled under it.
  const loose = boxes.filter((_, index) => !keys[index]?.closest('footer'));
  for (const [index, [name, a]] of loose.entries()) {
    for (const [other, b] of loose.slice(index + 1)) {
      const apartX = Math.max(a.left, b.left) - Math.min(a.right, b.right);
      const apartY = Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom);
      expect(Math.max(apartX, apartY), `${name} and ${other}`).toBeGreaterThanOrEqual(3.5);
    }
  }
});
