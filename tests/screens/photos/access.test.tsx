import type { ComponentChildren } from 'preact';
import { beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { mixOptics } from '#calc/optics.ts';
import type { Material } from '#model/material.ts';
import type { Photo } from '#model/photo.ts';
import { ColourScreen } from '#screens/colours/ColourScreen.tsx';
import { ColoursScreen } from '#screens/colours/ColoursScreen.tsx';
import { CardScreen } from '#screens/photos/CardScreen.tsx';
import { PhotoScreen } from '#screens/photos/PhotoScreen.tsx';
import { PhotosScreen } from '#screens/photos/PhotosScreen.tsx';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { changeHead } from '#store/heads.ts';
import { addPhoto } from '#store/photos.ts';
import { aColourant, aMix, drops, opticsOf } from '../../hands/colours.ts';
import { aCardPicture } from '../../hands/drawn-card.ts';
import { aColourway, aMould, pourEvening, seven } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

const long = 'Aquickbrownfoxjumpsoverthelazydogwithoutasinglespaceanywhere';
const brown = aColourant('Brown', opticsOf(0.012, 0.004, 0, 1, 2, 3));
const bare: Material = aColourant(long, null);
const pearl = aColourant('Pearl', opticsOf(0.001, 0.02));

let shop: TestShop;
const drawn: Record<string, () => ComponentChildren> = {};

beforeEach(async () => {
  shop = await aShop();
  const pair = await aColourway(shop.book, long.slice(4), '#5b4029', '#eeeeee');
  const plain = await aColourway(shop.book, 'Plain', '#5b4029');
  for (const material of [brown, bare, pearl]) await shop.book.db.put('materials', material);
  await shop.book.db.put(
    'mixes',
    aMix([[drops(brown, 5)], [drops(pearl, 5)]], { colourwayId: pair.id }),
  );
  await shop.book.db.put(
    'mixes',
    aMix([[drops(brown, 5), drops(bare, 2)]], { colourwayId: plain.id }),
  );
  const optics = mixOptics(opticsOf(0, 0), [
    { colourant: brown.optics ?? opticsOf(0, 0), dosePerCup: 5 },
  ]);
  const picture = await aCardPicture(optics);
  const photo = async (at: number): Promise<Photo> =>
    await addPhoto(shop.book, { shows: 'bait', colourwayId: pair.id }, picture, at);
  const first = await photo(seven);
  const second = await photo(seven - 1);
  for (const [{ id }, fault] of [
    [first, null],
    [second, 'coloured light'],
  ] as const) {
    const reading = { part: 'a', lab: [40, 10, 20], fault, forecast: [45, 10, 20] } as const;
    const readings = [{ ...reading, lab: [...reading.lab], forecast: [...reading.forecast] }];
    const changes = { rating: 4, isDrawn: true, thicknessMm: 10, readings } as Partial<Photo>;
    await changeHead(shop.book, 'photos', id, changes, seven);
  }
  const card = await addPhoto(shop.book, { shows: 'card', materialId: bare.id }, picture, seven);
  const mould = await aMould(shop.book, 'Shad', undefined, {
    section: { shape: 'round', thicknessMm: 12 },
  });
  const fills = [{ mould, gave: 'gggg' }];
  const sessionId = await pourEvening(shop.book, { fills, colourway: pair });
  drawn.colours = () => <ColoursScreen />;
  drawn.laminate = () => <ColourScreen colourwayId={pair.id} />;
  drawn.refused = () => <ColourScreen colourwayId={plain.id} />;
  drawn.photos = () => <PhotosScreen colourwayId={pair.id} />;
  drawn.photo = () => <PhotoScreen photoId={first.id} />;
  drawn.faulty = () => <PhotoScreen photoId={second.id} />;
  drawn.card = () => <CardScreen materialId={bare.id} />;
  drawn.cardPhoto = () => <PhotoScreen photoId={card.id} />;
  drawn.session = () => <SessionScreen sessionId={sessionId} />;
});

const screens: readonly [string, string, (string | RegExp)[]][] = [
  ['the wall of colours', 'colours', []],
  ['a laminate with its forecast and photos', 'laminate', []],
  ['a colour that is not forecast', 'refused', []],
  ['photos side by side', 'photos', []],
  ['a photo', 'photo', []],
  ['a photo with a fault', 'faulty', []],
  ['the reading of a photo', 'photo', [/^Read its colour/, 'Keep this reading']],
  ['the look of a swatch', 'photo', ['Give the swatch this look']],
  ['the card of a material', 'card', []],
  ['the reading of a card, refused', 'cardPhoto', [/^Read the card/, 'Keep this card']],
  ['the session of a laminate', 'session', []],
];

async function open(name: string, presses: readonly (string | RegExp)[]): Promise<HTMLElement> {
  const root = show(shop, drawn[name]?.());
  await expect.element(page.getByRole('heading', { level: 1 })).toBeVisible();
  for (const press of presses) {
    await page.getByRole('button', { name: press }).first().click();
    if (name !== 'session' && press !== presses.at(-1)) {
      await expect.element(page.getByRole('group', { name: /^Picture to tap/ })).toBeVisible();
    }
  }
  return root;
}

test.each(screens)(
  '%s has no fault that axe knows, in either palette, and fits 320 px',
  async (...by) => {
    const [, name, presses] = by;
    await page.viewport(320, 568);
    const root = await open(name, presses);
    for (const palette of ['chalk', 'lamp']) {
      document.documentElement.dataset.theme = palette;
      expect(await faults(root), palette).toEqual([]);
    }
    document.documentElement.dataset.theme = 'chalk';
    expect(isNoWider()).toBe(true);
  },
);

// The bars of a session's ribbon are a picture that can be pressed, with a list beside it.
test.each(screens.filter(([, name]) => name !== 'session'))(
  '%s has keys of 48 px at least, none on another',
  async (...by) => {
    const [, name, presses] = by;
    await page.viewport(360, 740);
    const root = await open(name, presses);
    const keys = [...root.querySelectorAll<HTMLElement>('button, a, input, summary')].map(
      (key) => [key.textContent || key.id || key.outerHTML, key.getBoundingClientRect()] as const,
    );
    expect(keys.length).toBeGreaterThan(1);
    for (const [index, [word, a]] of keys.entries()) {
      expect(
        Math.min(a.width, a.height),
        `${word} is ${a.width} x ${a.height}`,
      ).toBeGreaterThanOrEqual(48);
      for (const [other, b] of keys.slice(index + 1)) {
        const apartX = Math.max(a.left, b.left) - Math.min(a.right, b.right);
        const apartY = Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom);
        expect(Math.max(apartX, apartY), `${word} and ${other}`).toBeGreaterThanOrEqual(3.5);
      }
    }
  },
);
