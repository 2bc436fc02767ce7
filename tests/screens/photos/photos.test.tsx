import { beforeEach, describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Colourway } from '#model/gear.ts';
import { mostPhotoBytes, mostPhotoPx, type Photo, type PhotoId } from '#model/photo.ts';
import { devicePictures } from '#platform/pictures.ts';
import { ColoursScreen } from '#screens/colours/ColoursScreen.tsx';
import { PhotoStrip } from '#screens/PhotoStrip.tsx';
import { PhotoScreen } from '#screens/photos/PhotoScreen.tsx';
import { PhotosScreen } from '#screens/photos/PhotosScreen.tsx';
import { logEntry } from '#store/entries.ts';
import { addHead, changeHead, headOf, headsOf } from '#store/heads.ts';
import { addPhoto, pictureOf } from '#store/photos.ts';
import { beginSession, runningEntries } from '#store/sessions.ts';
import { aColourway, seven } from '../../hands/evening.ts';
import { figure } from '../../hands/figure.ts';
import { aSentence } from '../../hands/hostile.ts';
import {
  aPicture,
  hugePng,
  noise,
  placesIn,
  plain,
  redAndBlue,
  withPlace,
} from '../../hands/picture-files.ts';
import { seeded } from '../../hands/seeded.ts';
import { aSafety, aShop, show, type TestShop } from '../../hands/show.tsx';

let shop: TestShop;
let peat: Colourway;

beforeEach(async () => {
  shop = await aShop();
  peat = await aColourway(shop.book, 'Peat', '#5b4029');
});

const photos = () => headsOf(shop.book, 'photos');
const held = () => shop.book.db.getAll('photo-bytes');
const field = (word: string) => page.getByLabelText(word, { exact: true });
const alerts = () =>
  page
    .getByRole('alert')
    .elements()
    .map(({ textContent }) => textContent ?? '');

function fileOf(bytes: Uint8Array<ArrayBuffer>, name = 'bait.jpg', type = 'image/jpeg'): File {
  return new File([bytes], name, { type });
}

async function give(file: File, word = 'Choose a picture'): Promise<void> {
  show(shop, <PhotoStrip colourwayId={peat.id} />);
  await userEvent.upload(field(word), file);
}

async function kept(): Promise<Photo> {
  await expect.poll(() => photos().then((all) => all.length), { timeout: 12_000 }).toBe(1);
  return (await photos())[0] as Photo;
}

/** A photo of the colour, stored as the screen does it. */
async function aPhoto(colour: string, at = seven): Promise<Photo> {
  const small = await devicePictures.remake(new Blob([await aPicture([120, 90], plain(colour))]), {
    mostPx: mostPhotoPx,
    mostBytes: mostPhotoBytes,
  });
  return await addPhoto(shop.book, { shows: 'bait', colourwayId: peat.id }, small, at);
}

/** The colour of one point of a stored picture, by shares of its sides. */
async function pointOf(id: PhotoId, [x, y]: readonly [number, number]): Promise<number[]> {
  const picture = await pictureOf(shop.book, id);
  if (!picture) throw new Error('The picture is not there.');
  const { widthPx, heightPx, rgba } = await devicePictures.pixelsOf(picture);
  const first = 4 * (Math.floor(y * heightPx) * widthPx + Math.floor(x * widthPx));
  return [...rgba.slice(first, first + 3)];
}

describe('a photo that is added', () => {
  test('says nothing of where and with what it was taken', async () => {
    const taken = withPlace(await aPicture([640, 480], redAndBlue));
    // The file is a whole picture and does hold them: otherwise the search proves nothing.
    expect(placesIn(taken)).toBeGreaterThanOrEqual(7);
    await give(fileOf(taken));
    await kept();
    const [picture] = await held();
    expect(picture?.bytes).toBeInstanceOf(ArrayBuffer);
    expect(placesIn(new Uint8Array(picture?.bytes ?? new ArrayBuffer(0)))).toBe(0);
    const heads = new TextEncoder().encode(JSON.stringify(await photos()));
    const left = placesIn(new Uint8Array(picture?.bytes ?? new ArrayBuffer(0))) + placesIn(heads);
    figure({
      drill: 'A photo says nothing of where it was taken',
      required: `0 of the ${placesIn(taken)} places in the file`,
      reached: `${left} left`,
      isMet: left === 0,
    });
    expect(placesIn(heads)).toBe(0);
  });

  // Exif 2.32, 4.6.4: 6 is to be turned a quarter clockwise, 3 a half turn, 8 a quarter back.
  test.each([
    [1, 640, 480, [0.2, 0.5], [0.8, 0.5]],
    [3, 640, 480, [0.8, 0.5], [0.2, 0.5]],
    [6, 480, 640, [0.5, 0.2], [0.5, 0.8]],
    [8, 480, 640, [0.5, 0.8], [0.5, 0.2]],
  ] as const)('with orientation %i stands upright', async (turn, width, height, red, blue) => {
    await give(fileOf(withPlace(await aPicture([640, 480], redAndBlue), turn)));
    const { id, widthPx, heightPx } = await kept();
    expect([widthPx, heightPx]).toEqual([width, height]);
    const [r] = await pointOf(id, red);
    const [, , b] = await pointOf(id, blue);
    expect(r).toBeGreaterThan(180);
    expect(b).toBeGreaterThan(180);
  });

  test('is at most 1600 points long and 400 kB heavy, however little it can be packed', async () => {
    await give(fileOf(await aPicture([1700, 900], noise(seeded(4)), 'image/jpeg')));
    const photo = await kept();
    const [picture] = await held();
    expect(Math.max(photo.widthPx, photo.heightPx)).toBeLessThanOrEqual(mostPhotoPx);
    expect(picture?.bytes.byteLength).toBeLessThanOrEqual(mostPhotoBytes);
    expect(photo.widthPx / photo.heightPx).toBeCloseTo(1700 / 900, 1);
  });

  test.each(['image/png', 'image/webp'] as const)(
    'may be a %s and becomes a JPEG',
    async (type) => {
      await give(fileOf(await aPicture([300, 200], redAndBlue, type), 'bait', type));
      const { mediaType, id } = await kept();
      expect(mediaType).toBe('image/jpeg');
      const picture = await pictureOf(shop.book, id);
      expect([...new Uint8Array(picture?.bytes ?? new ArrayBuffer(0)).slice(0, 2)]).toEqual([
        0xff, 0xd8,
      ]);
    },
  );

  test('waits while the phone is full, which is said at once, and comes in once there is room', async () => {
    const file = fileOf(await aPicture([300, 200], redAndBlue));
    let hasRoom = false;
    shop.safety = { ...aSafety({ trouble: 'full' }), hasRoom: async () => hasRoom };
    await give(file);
    await expect.poll(alerts).toEqual([expect.stringContaining('Shots go first, photos wait.')]);
    expect(alerts()[0]).toMatch(/^([A-Z][^.]{8,50}[.] ?)+$/);
    expect(await held()).toEqual([]);
    expect(shop.felt).toEqual(['refuse']);
    hasRoom = true;
    await give(file);
    await kept();
    expect(alerts()).toEqual([]);
  });

  test('belongs to the newest mix of its colour', async () => {
    const side = { role: 'only', name: 'Peat', swatch: '#5b4029', plastisolId: null } as const;
    const mix = { colourwayId: peat.id, baseMl: 236, sides: [{ ...side, doses: [] }] };
    await addHead(shop.book, 'mixes', { ...mix, version: 2, nextTime: '' }, seven);
    await addHead(shop.book, 'mixes', { ...mix, version: 1, nextTime: '' }, seven + 1);
    await give(fileOf(await aPicture([40, 40], redAndBlue)), 'Take a photo');
    const { mixId } = await kept();
    expect((await headsOf(shop.book, 'mixes')).find(({ id }) => id === mixId)?.version).toBe(2);
  });

  test('is felt, and asked of the camera of the back', async () => {
    await give(fileOf(await aPicture([40, 40], redAndBlue)), 'Take a photo');
    await kept();
    await expect.poll(() => shop.felt).toEqual(['confirm']);
    await expect.element(field('Take a photo')).toHaveAttribute('capture', 'environment');
  });

  test('while another is made small waits for its turn; what one is refused for stays', async () => {
    const { remake } = devicePictures;
    let free = () => {};
    const held = new Promise<void>((resolve) => {
      free = resolve;
    });
    const slow: typeof remake = async (...asked) => {
      await held;
      return await remake(...asked);
    };
    shop.pictures = { ...devicePictures, remake: slow };
    await give(fileOf(await aPicture([40, 40], redAndBlue)), 'Take a photo');
    await userEvent.upload(field('Take a photo'), fileOf(Uint8Array.from([1, 2, 3])));
    await userEvent.upload(field('Take a photo'), fileOf(await aPicture([60, 40], redAndBlue)));
    await expect.element(page.getByText('Making the picture small')).toBeVisible();
    expect(await photos()).toEqual([]);
    free();
    await expect.poll(async () => (await photos()).map(({ widthPx }) => widthPx)).toEqual([40, 60]);
    await expect.element(page.getByText('Making the picture small')).not.toBeInTheDocument();
    expect(alerts()).toEqual([expect.stringMatching(aSentence)]);
    expect(shop.felt).toEqual(['confirm', 'refuse', 'confirm']);
  });
});

describe('a file is refused with a sentence, and nothing is stored, when it is', () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>1</script></svg>';
  const cases: readonly [string, () => Promise<File> | File][] = [
    ['no picture', () => fileOf(Uint8Array.from([1, 2, 3]))],
    ['empty', () => fileOf(new Uint8Array(0))],
    ['an SVG', () => new File([svg], 'bait.svg', { type: 'image/svg+xml' })],
    ['an SVG that is called a JPEG', () => new File([svg], 'bait.jpg', { type: 'image/jpeg' })],
    ['60,000 points wide and high', () => fileOf(hugePng(60_000, 60_000), 'x.png', 'image/png')],
    ['a PNG of a header alone', () => fileOf(hugePng(600, 600), 'x.png', 'image/png')],
    [
      'a JPEG that was cut off in its header',
      async () => fileOf((await aPicture([640, 480], redAndBlue)).slice(0, 100)),
    ],
  ];
  test.each(cases)('%s', async (_, file) => {
    await give(await file());
    await expect.poll(alerts).toEqual([expect.stringMatching(aSentence)]);
    expect(await photos()).toEqual([]);
    expect(await held()).toEqual([]);
    expect(shop.felt).toEqual(['refuse']);
  });

  test('good the next time', async () => {
    await give(fileOf(Uint8Array.from([1, 2, 3])));
    await expect.poll(() => alerts().length).toBe(1);
    await userEvent.upload(field('Choose a picture'), fileOf(await aPicture([40, 40], redAndBlue)));
    await kept();
    expect(alerts()).toEqual([]);
  });
});

describe('a device without room', () => {
  /** The disk takes no more pictures: the transaction that carries one is called off at its end. */
  function fillDisk(): void {
    const { db } = shop.book;
    const full = (stores: never, mode?: never, options?: never) => {
      const tx = db.transaction(stores, mode, options);
      const isPicture = [stores].flat().includes('photo-bytes' as never);
      if (mode === 'readwrite' && isPicture) queueMicrotask(() => tx.abort());
      return tx;
    };
    const get = (of: typeof db, name: keyof typeof db) =>
      name === 'transaction' ? full : Reflect.get(of, name, of);
    Object.assign(shop.book, { db: new Proxy(db, { get } as ProxyHandler<typeof db>) });
  }

  test('says so beside the keys and keeps neither half of the photo; the log goes on', async () => {
    await aPhoto('#5b4029');
    const session = { kind: 'session-begun', zone: 'UTC', ambientC: 20, pourC: 165 } as const;
    const sessionId = await beginSession(shop.book, [session], seven);
    fillDisk();
    await give(fileOf(await aPicture([640, 480], redAndBlue)));
    await expect.poll(alerts).toEqual([expect.stringMatching(/^No room for this photo\./)]);
    expect(await photos()).toHaveLength(1);
    expect(await held()).toHaveLength(1);
    await logEntry(shop.book, sessionId, { kind: 'noted', text: 'Went on' }, seven);
    expect(await runningEntries(shop.book)).toHaveLength(2);
  });
});

describe('the photos of a colour', () => {
  test('stand newest first, and lead to all of them side by side', async () => {
    await aPhoto('#111111', seven - 86_400_000);
    await aPhoto('#eeeeee', seven);
    show(shop, <PhotoStrip colourwayId={peat.id} />);
    const tiles = page.getByRole('listitem');
    await expect
      .poll(() => tiles.elements().map(({ textContent }) => textContent))
      .toEqual(['Tue 24 Nov', 'Mon 23 Nov']);
    await expect
      .element(page.getByRole('link', { name: /^Same/ }))
      .toHaveAttribute('href', `#/photos/${peat.id}`);
  });

  test('side by side are of one size and crop, and say how they compare as far as photos can tell', async () => {
    const read = (photo: Photo, lab: [number, number, number], fault: 'patchy' | null = null) =>
      changeHead(
        shop.book,
        'photos',
        photo.id,
        { readings: [{ part: 'only', lab, fault, forecast: null }] },
        seven,
      );
    await read(await aPhoto('#111111', seven), [40, 10, 20]);
    await read(await aPhoto('#222222', seven - 1), [41, 10, 20]);
    await read(await aPhoto('#333333', seven - 2), [46, 12, 20]);
    await read(await aPhoto('#444444', seven - 3), [70, -20, 20]);
    await read(await aPhoto('#555555', seven - 4), [40, 10, 20], 'patchy');
    show(shop, <PhotosScreen colourwayId={peat.id} />);
    await expect
      .poll(() =>
        page
          .getByRole('listitem')
          .elements()
          .map(({ textContent }) => textContent),
      )
      .toEqual([
        'Tue 24 Novread',
        'Tue 24 Novas alike as photos can tell',
        'Tue 24 Nova little different',
        'Tue 24 Novclearly different',
        'Tue 24 Nov',
      ]);
    await expect.poll(() => document.querySelectorAll('li img').length).toBe(5);
    const boxes = [...document.querySelectorAll('li img')].map((img) =>
      img.getBoundingClientRect(),
    );
    expect(new Set(boxes.map(({ width, height }) => `${width}x${height}`)).size).toBe(1);
    expect(boxes[0]?.width).toBeCloseTo(boxes[0]?.height ?? 0, 0);
  });

  test('show the newest on the wall of colours, and the swatch where there is none', async () => {
    await aColourway(shop.book, 'Plain', '#336699');
    await aPhoto('#111111');
    show(shop, <ColoursScreen />);
    const cards = () =>
      [...document.querySelectorAll('li')].map((card) => [
        card.querySelector('b')?.textContent,
        card.querySelectorAll('img').length,
        card.querySelectorAll('i').length,
      ]);
    await expect
      .poll(() => cards().sort())
      .toEqual([
        ['Peat', 1, 0],
        ['Plain', 0, 1],
      ]);
  });
});

describe('one photo', () => {
  test('lets its address go when it leaves the glass', async () => {
    const photo = await aPhoto('#111111');
    const gone: string[] = [];
    shop.pictures = {
      ...devicePictures,
      show: (picture) => {
        const { url, letGo } = devicePictures.show(picture);
        return {
          url,
          letGo: () => {
            gone.push(url);
            letGo();
          },
        };
      },
    };
    const root = show(shop, <PhotoScreen photoId={photo.id} />);
    await expect.poll(() => root.querySelector('img')?.src).toMatch(/^blob:/);
    const url = root.querySelector('img')?.src ?? '';
    show(shop, <p>Elsewhere</p>);
    await expect.poll(() => gone).toContain(url);
    await expect(fetch(url)).rejects.toThrow();
  });

  test('takes a liking of 1 to 5, once more takes it away', async () => {
    const photo = await aPhoto('#111111');
    show(shop, <PhotoScreen photoId={photo.id} />);
    const rating = () => headOf(shop.book, 'photos', photo.id).then((head) => head?.rating);
    await page.getByRole('button', { name: '4 of 5' }).click();
    await expect.poll(rating).toBe(4);
    await expect
      .element(page.getByRole('button', { name: '4 of 5' }))
      .toHaveAttribute('aria-pressed', 'true');
    await page.getByRole('button', { name: '4 of 5' }).click();
    await expect.poll(rating).toBeNull();
  });

  test('comes off the list with its bytes kept, and back', async () => {
    const photo = await aPhoto('#111111');
    show(shop, <PhotoScreen photoId={photo.id} />);
    await page.getByRole('button', { name: 'Take off the list' }).click();
    await expect.poll(photos).toEqual([]);
    expect(await held()).toHaveLength(1);
    await expect.poll(() => window.location.hash).toBe(`#/colour/${peat.id}`);
    show(shop, <PhotoScreen photoId={photo.id} />);
    await page.getByRole('button', { name: 'Bring back' }).click();
    await expect.poll(() => photos().then((all) => all.length)).toBe(1);
  });

  test('gives the swatch the look of the spot that is tapped', async () => {
    const photo = await aPhoto('#2a9d3c');
    show(shop, <PhotoScreen photoId={photo.id} />);
    await page.getByRole('button', { name: 'Give the swatch this look' }).click();
    await page.getByRole('button', { name: 'Give the swatch this look' }).click();
    await expect.poll(alerts).toEqual(['Tap on the bait first.']);
    await page.getByRole('group', { name: /^Picture to tap on/ }).click();
    await page.getByRole('button', { name: 'Give the swatch this look' }).click();
    const swatch = async () =>
      (await headOf(shop.book, 'colourways', peat.id))?.sides[0]?.swatch ?? '';
    await expect.poll(swatch).not.toBe('#5b4029');
    const [r = 0, g = 0, b = 0] = ((await swatch()).match(/[0-9a-f]{2}/g) ?? []).map((hex) =>
      Number.parseInt(hex, 16),
    );
    // JPEG keeps a plain field to a step or two.
    expect(Math.max(Math.abs(r - 0x2a), Math.abs(g - 0x9d), Math.abs(b - 0x3c))).toBeLessThan(4);
  });

  test('that was drawn says so', async () => {
    const photo = await aPhoto('#111111');
    await changeHead(shop.book, 'photos', photo.id, { isDrawn: true }, seven);
    show(shop, <PhotoScreen photoId={photo.id} />);
    await expect.element(page.getByText('drawn, not photographed')).toBeVisible();
  });

  test('that is not in the logbook is said not to be', async () => {
    show(shop, <PhotoScreen photoId={peat.id as string as PhotoId} />);
    await expect.element(page.getByText('This photo is not in this logbook.')).toBeVisible();
  });
});
