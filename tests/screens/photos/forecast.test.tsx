import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { type Lab, rgb255FromLab } from '#calc/colour.ts';
import type { ColourShop } from '#calc/shop-colours.ts';
import { plainForecast } from '#calc/shop-colours.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import { ForecastSheet } from '#screens/ForecastSheet.tsx';
import { logEntry } from '#store/entries.ts';
import { endSession, sealedSessions } from '#store/sessions.ts';
import { changeSettings } from '#store/settings.ts';
import { aColourant, aMix, aReadPhoto, drops, opticsOf, trueLab } from '../../hands/colours.ts';
import { aColourway, aMould, pourEvening, seven } from '../../hands/evening.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

const brown = aColourant('Brown', opticsOf(0.012, 0.004, 0, 1, 2, 3, 4, 5));
const pearl = aColourant('Pearl', opticsOf(0.001, 0.02));
const lime = aColourant('Lime', null);
const glow = aColourant('Glow', opticsOf(0.01, 0.01, 3), { glowsOrChanges: true });
const materials = [brown, pearl, lime, glow];

let shop: TestShop;
let peat: Colourway;

beforeEach(async () => {
  shop = await aShop();
  peat = await aColourway(shop.book, 'Peat', '#5b4029');
  for (const material of materials) await shop.book.db.put('materials', material);
});

async function put({ mixes = [], photos = [] }: Partial<ColourShop>): Promise<void> {
  for (const mix of mixes) await shop.book.db.put('mixes', mix);
  for (const photo of photos) await shop.book.db.put('photos', photo);
}

async function open(of = peat): Promise<HTMLElement> {
  const root = show(shop, <ForecastSheet colourwayId={of.id} />);
  await expect.element(page.getByRole('heading', { name: 'What to expect' })).toBeVisible();
  return root;
}

const mixOf = (...doses: Parameters<typeof drops>[]): Mix =>
  aMix([doses.map(([material, amount]) => drops(material, amount))], { colourwayId: peat.id });

const says = (words: string | RegExp) =>
  expect.element(page.getByText(words).first()).toBeVisible();

/** What no forecast may ever show or say: a colour code, a per cent, or that it is the same. */
const forbidden = /#[0-9a-f]{3,6}\b|%|per ?cent|\bmatch|\brgb\b|identical|exact/i;

describe('a forecast says', () => {
  test('that there is no mix', async () => {
    await open();
    await says('No guess: no mix is written down for this colour yet.');
  });

  test('rough before any photo, thick and thin, and that there is none to hold it against', async () => {
    await put({ mixes: [mixOf([brown, 6])] });
    const root = await open();
    await says('Guess. Usually off by a clearly visible step.');
    await says('Thick, 10 mm');
    await says('Thin, 5 mm');
    await says('No photo of yours to hold it against yet.');
    expect(root.textContent).not.toMatch(forbidden);
  });

  test.each([
    [[lime, 3], 'No guess: Lime has no swatch yet. Photograph a bait with it alone on the card.'],
    [[glow, 3], 'No guess: Glow glows or changes with light or heat. No forecast covers that.'],
    [
      [brown, 30],
      'No guess: the dose of Brown is far from the one on its card. Photograph a bait nearer to it.',
    ],
  ] as const)('no guess and why: %#', async ([material, amount], words) => {
    await put({ mixes: [mixOf([material, amount])] });
    const root = await open();
    await says(words);
    expect(root.querySelector('i')).toBeNull();
    expect(root.textContent).not.toMatch(forbidden);
  });

  test('the way to the card of what has no swatch', async () => {
    await put({ mixes: [mixOf([lime, 3], [brown, 4])] });
    await open();
    await expect
      .element(page.getByRole('link', { name: 'Lime on the card' }))
      .toHaveAttribute('href', `#/card/${lime.id}`);
  });

  test('how much nearer own photos make it, by the errors of their day', async () => {
    const mix = mixOf([brown, 6]);
    const [side] = mix.sides;
    if (!side) throw new Error('A mix has a side.');
    const body = { thicknessMm: 10, backing: 0.85 };
    const forecast = plainForecast({ materials, mixes: [mix], photos: [] }, mix, side, body);
    const near = (forecast as Lab).map((part) => part + 0.5) as Lab;
    const photos = Array.from({ length: 4 }, () => aReadPhoto(mix, near, forecast));
    await put({ mixes: [mix], photos });
    await open();
    // sqrt(4 x 8^2 / (4 + 4)) is 5.7 and a little more: below 6 is near.
    await says('Guess from 4 photos of yours. Usually near.');
    await says('Nearest real bait: Peat.');
  });

  test('close after many good ones', async () => {
    const mix = mixOf([brown, 6]);
    const [side] = mix.sides;
    if (!side) throw new Error('A mix has a side.');
    const body = { thicknessMm: 10, backing: 0.85 };
    const forecast = plainForecast({ materials, mixes: [mix], photos: [] }, mix, side, body);
    const photos = Array.from({ length: 30 }, () => aReadPhoto(mix, forecast as Lab, forecast));
    await put({ mixes: [mix], photos });
    await open();
    await says('Guess from 30 photos of yours. Usually close.');
  });

  test('nothing of a picture while the newest mix has none; the newest photo stands there', async () => {
    const old = mixOf([brown, 6]);
    const now = { ...mixOf([lime, 2]), version: 2 };
    const photo = aReadPhoto(old, [40, 10, 20], null);
    await put({ mixes: [old, now], photos: [photo] });
    const root = await open();
    await says('Version 2');
    await says('The newest real bait: Peat.');
    expect(root.querySelector('i')).toBeNull();
  });

  test('how much flake covers, which flake is not known, and that salt is left out', async () => {
    const flake = aColourant('Flake', null, { kind: 'flake', unit: 'g' });
    const size = { acrossMm: 0.889, cut: 'hex' } as const;
    const known = { ...aColourant('Black flake', null), kind: 'flake', unit: 'g' } as const;
    const black = { ...known, flake: size, swatch: '#101010' };
    const salt = aColourant('Salt', null, { kind: 'salt', unit: 'g' });
    for (const material of [flake, black, salt]) await shop.book.db.put('materials', material);
    const mix = aMix(
      [[drops(brown, 6), drops(flake, 1), drops(salt, 1), { ...drops(black, 1), unit: 'tsp' }]],
      { colourwayId: peat.id },
    );
    await put({ mixes: [mix] });
    await open();
    await says(
      /^Guess\. Usually off by a clearly visible step\. Flake covers about (a third|half|a fifth) of it\. Flake without a size or look is left out\.$/,
    );
    await says('Salt clouds a bait. It is left out here.');
  });
});

describe('a forecast shows', () => {
  test('the colour that the optics give, and another one where the bait is thinner', async () => {
    const mix = mixOf([brown, 6]);
    await put({ mixes: [mix] });
    const root = await open();
    await expect.poll(() => root.querySelectorAll('i').length).toBe(2);
    const seen = [...root.querySelectorAll('i')].map((i) => getComputedStyle(i).backgroundColor);
    const want = [10, 5].map((mm) => {
      const lab = trueLab({ materials }, [drops(brown, 6)], {}, mm);
      return `rgb(${rgb255FromLab(lab).map(Math.round).join(', ')})`;
    });
    expect(seen).toEqual(want);
    expect(seen[0]).not.toBe(seen[1]);
  });

  test('the thickest part of the mould that is chosen', async () => {
    await aMould(shop.book, 'Grub', undefined, { section: { shape: 'round', thicknessMm: 12 } });
    await aMould(shop.book, 'Shad', undefined, { section: { shape: 'round', thicknessMm: 14 } });
    await aMould(shop.book, 'Bare');
    await put({ mixes: [mixOf([brown, 6])] });
    await open();
    await says('Thick, 12 mm');
    await page.getByRole('button', { name: /^Shad/ }).click();
    await says('Thick, 14 mm');
    await expect.element(page.getByRole('button', { name: /^Bare/ })).not.toBeInTheDocument();
    await page.getByRole('button', { name: 'Thickest part: 1 mm more' }).click();
    await says('Thick, 15 mm');
    await page.getByRole('button', { name: 'Thickest part: 1 mm more' }).click();
    // Past 15 mm the method was not tried: 8 x 1.5 is 12, and that is no guess.
    await says(/No guess: the method was tried on baits of 5 to 15 mm only\./);
  });

  test('the thick and the thin part of the mould that the colour was poured in', async () => {
    const section = (thicknessMm: number) => ({ shape: 'round', thicknessMm }) as const;
    await aMould(shop.book, 'Alder', undefined, { section: section(12) });
    const shad = await aMould(shop.book, 'Shad', undefined, {
      section: section(14),
      thinnestMm: 6.5,
    });
    const mix = mixOf([brown, 6]);
    await put({ mixes: [mix] });
    await open();
    // Never poured: the first by name, and nobody measured its thin end.
    await says('Thick, 12 mm');
    await says('Thin, 5 mm');
    await pourEvening(shop.book, { fills: [{ mould: shad, gave: 'gggg' }], colourway: peat });
    await says('Thick, 14 mm');
    await says('Thin, 6.5 mm');
    const key = page.getByRole('button', { name: /^Shad/ });
    await expect.element(key).toHaveAttribute('aria-pressed', 'true');
    await expect.element(key).toHaveTextContent('Shad14 mm, thin 6.5 mm');
    const want = [14, 6.5].map((mm) => {
      const lab = trueLab({ materials }, [drops(brown, 6)], {}, mm);
      return `rgb(${rgb255FromLab(lab).map(Math.round).join(', ')})`;
    });
    const seen = [...document.querySelectorAll('i')].map(
      (spot) => getComputedStyle(spot).backgroundColor,
    );
    expect(seen).toEqual(want);
    await page.getByRole('button', { name: /^Alder/ }).click();
    await says('Thin, 5 mm');
    await page.getByRole('button', { name: /^Shad/ }).click();
    await page.getByRole('button', { name: 'Thinnest part: 1 mm less' }).click();
    await says('Thin, 6 mm');
    await expect.element(key).toHaveAttribute('aria-pressed', 'false');
  });

  test('thick and thin in inches where the shop measures in them', async () => {
    await changeSettings(shop.book, { lengthUnit: 'in' }, seven);
    await aMould(shop.book, 'Shad', undefined, {
      section: { shape: 'round', thicknessMm: 12.7 },
      thinnestMm: 6.35,
    });
    await put({ mixes: [mixOf([brown, 6])] });
    await open();
    await says('Thick, 0.5 in');
    await says('Thin, 0.25 in');
    await expect
      .element(page.getByRole('button', { name: /^Shad/ }))
      .toHaveTextContent('Shad0.5 in, thin 0.25 in');
    await page.getByRole('button', { name: 'Thickest part: 0.05 in more' }).click();
    await says('Thick, 0.55 in');
    await page.getByRole('button', { name: 'Thickest part: 0.05 in more' }).click();
    await says(/No guess: the method was tried on baits of 0\.2 to 0\.59 in only\./);
  });

  test('beside every side the photo that is nearest to that side', async () => {
    const pair = await aColourway(shop.book, 'Pair', '#5b4029', '#eeeeee');
    const slate = await aColourway(shop.book, 'Slate', '#5e6a72');
    const mix = aMix([[drops(brown, 6)], [drops(pearl, 6)]], { colourwayId: pair.id });
    const near = (doses: ReturnType<typeof drops>[]) => trueLab({ materials }, doses, {});
    const ofBrown = aReadPhoto(mixOf([brown, 6]), near([drops(brown, 6)]), null);
    // The pale one is the B side of a laminate of another colour.
    const other = aMix([[drops(brown, 3)], [drops(pearl, 6)]], { colourwayId: slate.id });
    const ofPearl = aReadPhoto(other, near([drops(pearl, 6)]), null, { part: 'b' });
    await put({ mixes: [mix, other], photos: [ofBrown, ofPearl] });
    const root = await open(pair);
    await says('Nearest real bait: Slate, side B.');
    await says('Nearest real bait: Peat.');
    const sides = [...root.querySelectorAll('h3')]
      .map((head) => [head.textContent, head.parentElement?.textContent] as const)
      .filter(([name]) => name?.startsWith('Side '));
    expect(sides.map(([name]) => name)).toEqual(['Side 1', 'Side 2']);
    expect(sides[0]?.[1]).toContain('Nearest real bait: Peat.');
    expect(sides[1]?.[1]).toContain('Nearest real bait: Slate, side B.');
    expect(root.textContent?.match(/real bait/g)).toHaveLength(2);
  });

  test('a nearest photo beside the side that has a guess, and none beside the refused one', async () => {
    const pair = await aColourway(shop.book, 'Pair', '#5b4029', '#eeeeee');
    const mix = aMix([[drops(lime, 6)], [drops(pearl, 6)]], { colourwayId: pair.id });
    const photo = aReadPhoto(mixOf([pearl, 6]), [80, 0, 5], null);
    await put({ mixes: [mix], photos: [photo] });
    const root = await open(pair);
    await says('Nearest real bait: Peat.');
    const [first, second] = [...root.querySelectorAll('h3')].map((head) => head.parentElement);
    expect(first?.textContent).not.toContain('real bait');
    expect(second?.textContent).toContain('Nearest real bait: Peat.');
  });

  test('where the sides of a laminate meet, and which one wins', async () => {
    const pair = await aColourway(shop.book, 'Pair', '#5b4029', '#eeeeee');
    const mix = aMix([[drops(brown, 6)], [drops(pearl, 6)]], { colourwayId: pair.id });
    await put({ mixes: [mix] });
    const mould = await aMould(shop.book, 'Shad');
    const poured = async (at: number, verdict: 'a-won' | 'even') => {
      const sessionId = await pourEvening(shop.book, {
        fills: [{ mould, gave: 'gggg' }],
        colourway: pair,
        at,
        endMin: null,
      });
      const said = { kind: 'laminate-judged', colourwayId: pair.id, verdict } as const;
      await logEntry(shop.book, sessionId, said, at + 1_000);
      await endSession(shop.book, sessionId, at + 2_000);
    };
    await open(pair);
    await says(/^Which side wins is not known yet/);
    await poured(seven - 86_400_000, 'a-won');
    await poured(seven, 'even');
    expect(await sealedSessions(shop.book)).toHaveLength(2);
    await says(/^Side 1 is the stronger side\. It won in 1 of 2 pours\. A little more in Side 2/);
    const line = page.getByRole('img', {
      name: 'Side 1, the line where they meet, Side 2: a guess',
    });
    await expect.element(line).toBeVisible();
    expect(line.element().querySelectorAll('i')).toHaveLength(5);
  });

  test('no line while one side is refused', async () => {
    const pair = await aColourway(shop.book, 'Pair', '#5b4029', '#eeeeee');
    const mix = aMix([[drops(brown, 6)], [drops(lime, 6)]], { colourwayId: pair.id });
    await put({ mixes: [mix] });
    await open(pair);
    await says(/No guess: Lime has no swatch yet/);
    expect(document.querySelector('[role="img"]')).toBeNull();
  });
});
