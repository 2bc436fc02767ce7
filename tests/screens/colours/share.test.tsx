import jsQR from 'jsqr';
import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Colourway } from '#model/gear.ts';
import type { Material } from '#model/material.ts';
import type { Mix } from '#model/mix.ts';
import type { SharedMix } from '#model/shared-mix.ts';
import { ShareMixScreen } from '#screens/colours/ShareMixScreen.tsx';
import { TakeMixScreen } from '#screens/colours/TakeMixScreen.tsx';
import { headsOf, setDeleted } from '#store/heads.ts';
import { mixFile, mostBytes, packMix, readMix, readMixFile, unpackMix } from '#store/mix-parcel.ts';
import { keepMix, versionsOf } from '#store/mixes.ts';
import { sharedOf, takeMix } from '#store/shared-mix.ts';
import { aColourway, seven } from '../../hands/evening.ts';
import { faults, isNoWider } from '../../hands/faults.ts';
import { aDose, aMaterial, aSide, cupMl } from '../../hands/mixes.ts';
import { seeded } from '../../hands/seeded.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;
let pair: Colourway;
let mix: Mix;
let shared: SharedMix;

beforeEach(async () => {
  await page.viewport(360, 740);
  shop = await aShop();
  const { book } = shop;
  const black = await aMaterial(book, 'Black');
  const flake = await aMaterial(book, 'Green flake ½', {
    kind: 'flake',
    unit: 'g',
    flake: { acrossMm: 0.889, cut: 'hex' },
  });
  const powder = await aMaterial(book, 'Moon powder', { unit: 'g', glowsOrChanges: true });
  const base = await aMaterial(book, 'Medium', { kind: 'plastisol', swatch: null });
  pair = await aColourway(book, 'Tinte/Rost für Zander', '#1c2733', '#8a3b1d');
  const sides = [
    aSide([aDose(black.id, 9.25, 'drop', { name: 'Black' })], {
      role: 'a',
      name: 'Ink',
      plastisolId: base.id,
      hasRemelt: true,
    }),
    aSide(
      [
        aDose(flake.id, 0.375, 'tsp', { name: 'Green flake ½', isPinned: true }),
        aDose(powder.id, 0.6, 'g', { name: 'Moon powder' }),
      ],
      { role: 'b', name: 'Rust' },
    ),
    aSide([aDose(black.id, 1.5, 'mL', { name: 'Black' })], { role: 'core', name: 'Heart' }),
  ];
  mix = await keepMix(book, pair.id, { baseMl: cupMl, sides, nextTime: 'Secret.' }, seven);
  const materials = await headsOf(book, 'materials');
  shared = sharedOf(mix, pair.name, new Map(materials.map((one) => [one.id as string, one])));
});

/** What an independent reader (jsqr) finds in the code on the page. */
async function readCode(svg: Element): Promise<string | undefined> {
  const side = 600;
  const copy = svg.cloneNode(true) as SVGElement;
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  copy.setAttribute('width', String(side));
  copy.setAttribute('height', String(side));
  const image = new Image();
  const text = new XMLSerializer().serializeToString(copy);
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = side;
  canvas.height = side;
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('There is no canvas.');
  pen.fillStyle = '#ffffff';
  pen.fillRect(0, 0, side, side);
  pen.drawImage(image, 0, 0, side, side);
  const { data } = pen.getImageData(0, 0, side, side);
  return jsQR(data, side, side)?.data;
}

/** Everything the shop holds, as text. */
async function bookText(): Promise<string> {
  const { db } = shop.book;
  return JSON.stringify(await Promise.all([...db.objectStoreNames].map((name) => db.getAll(name))));
}

describe('a shared mix', () => {
  test('reads back equal from the link, the file and the code', async () => {
    const root = show(shop, <ShareMixScreen mixId={mix.id} />);
    await expect.element(page.getByRole('img', { name: /^QR code/ })).toBeVisible();
    const link = (page.getByLabelText('Link').element() as HTMLInputElement).value;
    const svg = root.querySelector('svg[aria-label^="QR code"]');
    expect(svg && (await readCode(svg))).toBe(link);
    const packed = /#\/take-mix\/([A-Za-z0-9_-]+)$/.exec(link)?.[1] ?? '';
    expect(await unpackMix(packed)).toEqual({ mix: shared, refusal: null });
    const file = root.querySelector<HTMLAnchorElement>('a[download]');
    expect(file?.download).toBe('tinte-rost-f-r-zander-1-mix.json');
    const bytes = await (await fetch(file?.href ?? '')).blob();
    expect(await readMixFile(bytes)).toEqual({ mix: shared, refusal: null });
  });

  test('tells nothing else of the shop: no note, no id, no date, no device', () => {
    const text = mixFile(shared);
    for (const secret of ['Secret', mix.id, pair.id, mix.device, String(mix.createdAt)]) {
      expect(text).not.toContain(secret);
    }
  });

  test('is looked at first, then taken as a new colour with what the shelf has not', async () => {
    const other = await aShop();
    await aMaterial(other.book, 'black');
    show(other, <TakeMixScreen packed={await packMix(shared)} />);
    await expect.element(page.getByText('Black: 9.25 drops')).toBeVisible();
    await expect
      .element(page.getByText('New on your shelf: Medium, Green flake ½, Moon powder.'))
      .toBeVisible();
    await expect.element(page.getByText('Old plastic goes in.', { exact: true })).toBeVisible();
    await expect
      .element(page.getByText('Glows, or changes with heat or light: Moon powder.'))
      .toBeVisible();
    expect(await headsOf(other.book, 'colourways')).toEqual([]);
    await page.getByRole('button', { name: 'Take it as a new colour' }).click();
    await expect.poll(() => window.location.hash).toMatch(/^#\/colour\//);
    const [taken] = await headsOf(other.book, 'colourways');
    expect(taken).toMatchObject({ name: pair.name, sides: [{ name: 'Ink' }, { name: 'Rust' }] });
    const [own] = taken ? await versionsOf(other.book, taken.id) : [];
    const materials = await headsOf(other.book, 'materials');
    const names = ['Green flake ½', 'Medium', 'Moon powder', 'black'];
    expect(materials.map(({ name }) => name).sort()).toEqual(names);
    // Poured by the new owner it is the same mix, with the name of the own bottle.
    const byId = new Map(materials.map((one: Material) => [one.id as string, one]));
    const again = own && sharedOf(own, pair.name, byId);
    expect(again?.sides).toEqual(shared.sides);
  });

  test('taken into an empty shop and shared from there is the same to the last word', async () => {
    expect(shared.sides.map(({ hasRemelt }) => hasRemelt)).toEqual([true, undefined, undefined]);
    expect(shared.materials).toContainEqual({
      name: 'Moon powder',
      kind: 'colourant',
      flake: null,
      swatch: '#16120e',
      unit: 'g',
      glowsOrChanges: true,
    });
    const other = await aShop();
    const { id } = await takeMix(other.book, shared, seven);
    const [own] = await versionsOf(other.book, id);
    const materials = await headsOf(other.book, 'materials');
    const byId = new Map(materials.map((one) => [one.id as string, one]));
    expect(own && sharedOf(own, pair.name, byId)).toEqual(shared);
  });

  test('with a powder is no liquid of the same name', async () => {
    const other = await aShop();
    await aMaterial(other.book, 'Moon powder', { unit: 'mL' });
    await takeMix(other.book, shared, seven);
    const units = (await headsOf(other.book, 'materials'))
      .filter(({ name }) => name === 'Moon powder')
      .map(({ unit, glowsOrChanges }) => [unit, glowsOrChanges]);
    expect(units).toEqual([
      ['mL', false],
      ['g', true],
    ]);
  });

  test('still tells what a material was that is off the shelf by now', async () => {
    const [black] = await headsOf(shop.book, 'materials');
    if (black) await setDeleted(shop.book, 'materials', black.id, seven, seven);
    show(shop, <ShareMixScreen mixId={mix.id} />);
    await expect.element(page.getByRole('img', { name: /^QR code/ })).toBeVisible();
    const link = (page.getByLabelText('Link').element() as HTMLInputElement).value;
    expect(await unpackMix(link.split('/').at(-1) ?? '')).toEqual({ mix: shared, refusal: null });
  });

  // As it was written before parcels told of units, old plastic and what glows. Never edit it.
  const older =
    '{"made":"mix","form":1,"name":"Reed","baseMl":240,"materials":[{"name":"Medium","kind":"plastisol","flake":null,"swatch":null},{"name":"Salt","kind":"salt","flake":null,"swatch":null}],"sides":[{"role":"only","name":"Reed","swatch":"#6b7a3a","plastisol":0,"doses":[{"material":1,"amount":4,"unit":"g","isPinned":false}]}]}';

  test('of an older shape is read as it stands, and its materials are the usual ones', async () => {
    const read = await readMix(older);
    expect(read).toEqual({ mix: JSON.parse(older), refusal: null });
    const other = await aShop();
    const own = await aMaterial(other.book, 'Medium', { kind: 'plastisol' });
    if (read.mix) await takeMix(other.book, read.mix, seven);
    const materials = await headsOf(other.book, 'materials');
    expect(materials.map(({ name, unit, glowsOrChanges }) => [name, unit, glowsOrChanges])).toEqual(
      [
        ['Medium', own.unit, false],
        ['Salt', 'g', false],
      ],
    );
    const [{ sides = [] } = {}] = await headsOf(other.book, 'mixes');
    expect(sides).toMatchObject([{ plastisolId: own.id }]);
    expect(sides[0]).not.toHaveProperty('hasRemelt');
  });

  test('that names a material twice brings it once', async () => {
    const other = await aShop();
    const materials = [...shared.materials, ...shared.materials];
    await takeMix(other.book, { ...shared, materials }, seven);
    expect(await headsOf(other.book, 'materials')).toHaveLength(shared.materials.length);
  });
});

describe('hostile mixes', () => {
  const broken = (change: (mix: Record<string, unknown>) => unknown) => {
    const copy = structuredClone(shared) as unknown as Record<string, unknown>;
    return JSON.stringify(change(copy) ?? copy);
  };
  const side = () => structuredClone(shared.sides[0]) as Record<string, unknown>;
  const corpus: [string, () => string][] = [
    ['nothing', () => ''],
    ['no JSON', () => '<html></html>'],
    ['a number', () => '7'],
    ['nothing inside', () => 'null'],
    ['a list', () => '[]'],
    ['ten thousand brackets', () => '['.repeat(10_000) + ']'.repeat(10_000)],
    [
      'a nested side',
      () => broken((it) => ({ ...it, name: { a: { b: { c: { d: { e: {} } } } } } })),
    ],
    [
      'a reach into every object',
      () => mixFile(shared).replace('"made"', '"__proto__":{"x":1},"made"'),
    ],
    ['a constructor', () => broken((it) => ({ ...it, constructor: {} }))],
    ['another thing', () => broken((it) => ({ ...it, made: 'mould' }))],
    ['a newer form', () => broken((it) => ({ ...it, form: 2 }))],
    ['a form of words', () => broken((it) => ({ ...it, form: 'one' }))],
    ['more than asked for', () => broken((it) => ({ ...it, script: 'alert(1)' }))],
    ['no name', () => broken((it) => ({ ...it, name: '   ' }))],
    ['a name of a thousand letters', () => broken((it) => ({ ...it, name: 'x'.repeat(1_000) }))],
    ['no volume', () => broken((it) => ({ ...it, baseMl: 0 }))],
    ['a volume without end', () => mixFile(shared).replace(/"baseMl": [\d.]+/, '"baseMl": 1e999')],
    ['no sides', () => broken((it) => ({ ...it, sides: [] }))],
    ['a side twice', () => broken((it) => ({ ...it, sides: [side(), side()] }))],
    ['half a laminate', () => broken((it) => ({ ...it, sides: [side()] }))],
    ['a tail alone', () => broken((it) => ({ ...it, sides: [{ ...side(), role: 'tail' }] }))],
    ['an unknown role', () => broken((it) => ({ ...it, sides: [{ ...side(), role: 'fin' }] }))],
    ['a colour of words', () => broken((it) => ({ ...it, sides: [{ ...side(), swatch: 'red' }] }))],
    ['a material that is missing', () => broken((it) => ({ ...it, materials: [] }))],
    ['a dose below nothing', () => mixFile(shared).replace('9.25', '-9.25')],
    ['a dose of words', () => mixFile(shared).replace('9.25', '"9"')],
    ['a place that is no place', () => mixFile(shared).replace('"material": 1', '"material": 0.5')],
    ['a unit of nowhere', () => mixFile(shared).replace('"unit": "mL"', '"unit": "kg"')],
    ['old plastic of words', () => mixFile(shared).replace('"hasRemelt": true', '"hasRemelt": 1')],
    [
      'a glow of words',
      () => mixFile(shared).replace('"glowsOrChanges": true', '"glowsOrChanges": "yes"'),
    ],
    ['a huge file', () => `"${'x'.repeat(mostBytes)}"`],
  ];

  test.each(corpus)('%s is refused with a sentence and changes nothing', async (_what, make) => {
    const before = await bookText();
    const read = await readMix(make());
    expect(read.mix).toBeNull();
    expect(read.refusal).toMatch(/^This .*\.$/);
    const asFile = await readMixFile(new Blob([make()]));
    expect(asFile.mix).toBeNull();
    expect(await bookText()).toBe(before);
    expect(Reflect.get({}, 'x')).toBeUndefined();
  });

  test('a link that swells is stopped while it swells', async () => {
    const bomb = new Blob(['0'.repeat(20_000_000)])
      .stream()
      .pipeThrough(new CompressionStream('deflate-raw'));
    const bytes = new Uint8Array(await new Response(bomb).arrayBuffer());
    const letters = [...bytes.slice(0, 8_000)].map((byte) => String.fromCharCode(byte)).join('');
    const packed = btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
    expect(await unpackMix(packed)).toEqual({
      mix: null,
      refusal: 'This link holds too much for a mix.',
    });
    expect((await unpackMix('A'.repeat(20_000))).refusal).toBe('This link is too long for a mix.');
  });

  test('five hundred links with a letter changed are refused or read as a whole mix', async () => {
    const chance = seeded(20_261_125);
    const packed = await packMix(shared);
    const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
    let refusals = 0;
    for (let run = 0; run < 500; run++) {
      const at = Math.floor(chance() * packed.length);
      const letter = letters.charAt(Math.floor(chance() * letters.length));
      const read = await unpackMix(packed.slice(0, at) + letter + packed.slice(at + 1));
      if (read.mix === null) {
        refusals += 1;
        expect(read.refusal).toMatch(/^This .*\.$/);
      } else expect(read.mix.made).toBe('mix');
    }
    expect(refusals).toBeGreaterThan(250);
  });

  test('a file that went away since it was chosen is refused with a sentence', async () => {
    const gone = new Blob([mixFile(shared)]);
    const reason = new DOMException('The file is not there any more.', 'NotReadableError');
    gone.text = () => Promise.reject(reason);
    expect(await readMixFile(gone)).toEqual({
      mix: null,
      refusal: 'This file cannot be read. Choose it again.',
    });
  });

  test('the answer to an older link never replaces that to the one typed last', async () => {
    const root = show(shop, <TakeMixScreen packed={null} />);
    await expect.element(page.getByLabelText('A link to a mix')).toBeVisible();
    const input = root.querySelector('input[inputmode="url"]') as HTMLInputElement;
    const type = (text: string) => {
      input.value = text;
      input.dispatchEvent(new InputEvent('input', { bubbles: true }));
    };
    const packed = await packMix(shared);
    // The first takes many turns to inflate, the second is refused in one.
    type(packed);
    type('no link at all');
    await expect.element(page.getByRole('alert')).toHaveTextContent('This link is damaged.');
    for (let again = 0; again < 5; again++) await unpackMix(packed);
    await expect.element(page.getByRole('alert')).toHaveTextContent('This link is damaged.');
    expect(page.getByText('Black: 9.25 drops').query()).toBeNull();
    // An emptied field says nothing.
    type('');
    await expect.element(page.getByRole('alert')).not.toBeInTheDocument();
    type(packed);
    await expect.element(page.getByText('Black: 9.25 drops')).toBeVisible();
  });

  test('a bad link and a bad file are told on the page, and the page goes on', async () => {
    const root = show(shop, <TakeMixScreen packed="not-a-mix" />);
    await expect.element(page.getByRole('alert')).toHaveTextContent('This link is damaged.');
    await page.getByLabelText('A link to a mix').fill(await packMix(shared));
    await expect.element(page.getByText('Black: 9.25 drops')).toBeVisible();
    await page.viewport(320, 568);
    expect(await faults(root)).toEqual([]);
    expect(isNoWider()).toBe(true);
  });
});

test('the page that shares has no fault that axe knows and fits 320 px', async () => {
  await page.viewport(320, 568);
  const root = show(shop, <ShareMixScreen mixId={mix.id} />);
  await expect.element(page.getByRole('img', { name: /^QR code/ })).toBeVisible();
  for (const palette of ['chalk', 'lamp']) {
    document.documentElement.dataset.theme = palette;
    expect(await faults(root)).toEqual([]);
  }
  document.documentElement.dataset.theme = 'chalk';
  expect(isNoWider()).toBe(true);
});
