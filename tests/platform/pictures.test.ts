import { afterEach, expect, test, vi } from 'vitest';
import { pictureHeader } from '#calc/picture-header.ts';
import { devicePictures } from '#platform/pictures.ts';
import { aPicture, redAndBlue, withPlace } from '../hands/picture-files.ts';

const limits = { mostPx: 1_600, mostBytes: 400_000 };
afterEach(() => vi.restoreAllMocks());

/** Made small with what its first bytes say, and how often a whole picture was opened for it. */
async function made(bytes: Uint8Array<ArrayBuffer>) {
  const opened = vi.spyOn(globalThis, 'createImageBitmap');
  const head = pictureHeader(bytes) ?? undefined;
  const picture = await devicePictures.remake(new Blob([bytes]), limits, head);
  const wholes = opened.mock.calls.length;
  opened.mockRestore();
  return { picture, wholes, points: await devicePictures.pixelsOf(picture) };
}

// Exif 2.32 (CIPA DC-008), Orientation: 1 as it lies, 3 by half a turn, 6 and 8 by a quarter.
test.each([
  [1, 1600, 1200, [0.2, 0.5], [0.8, 0.5]],
  [3, 1600, 1200, [0.8, 0.5], [0.2, 0.5]],
  [6, 1200, 1600, [0.5, 0.2], [0.5, 0.8]],
  [8, 1200, 1600, [0.5, 0.8], [0.5, 0.2]],
] as const)(
  'a large photo with orientation %i is never opened whole, and stands upright',
  async (turn, width, height, red, blue) => {
    const file = withPlace(await aPicture([4_000, 3_000], redAndBlue), turn);
    const { picture, wholes, points } = await made(file);
    expect(wholes).toBe(0);
    expect([picture.widthPx, picture.heightPx]).toEqual([width, height]);
    const at = ([x, y]: readonly [number, number]) =>
      4 * (Math.round(y * height) * width + Math.round(x * width));
    // The colours that were painted: #c81e1e and #1e1ec8.
    for (const [place, colour] of [
      [at(red), [0xc8, 0x1e, 0x1e]],
      [at(blue), [0x1e, 0x1e, 0xc8]],
    ] as const) {
      for (const part of [0, 1, 2])
        expect(
          Math.abs((points.rgba[place + part] ?? 0) - (colour[part] ?? 0)),
        ).toBeLessThanOrEqual(3);
    }
  },
);

test('one that ends half-way and one that is not much too large are opened as before', async () => {
  const whole = await aPicture([1_700, 900], redAndBlue);
  const { picture, wholes } = await made(whole);
  expect(wholes).toBe(1);
  expect([picture.widthPx, picture.heightPx]).toEqual([1_600, 847]);
  const large = await aPicture([4_000, 3_000], redAndBlue);
  const head = pictureHeader(large) ?? undefined;
  const cut = new Blob([large.slice(0, large.length / 2)]);
  const [before, after] = await Promise.all(
    [undefined, head].map((known) =>
      devicePictures.remake(cut, limits, known).then(Boolean, () => false),
    ),
  );
  expect(after).toBe(before);
});
