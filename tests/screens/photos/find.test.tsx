import { expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { mostPhotoBytes, mostPhotoPx } from '#model/photo.ts';
import { devicePictures } from '#platform/pictures.ts';
import { FindScreen } from '#screens/photos/FindScreen.tsx';
import { addPhoto, type PhotoOf } from '#store/photos.ts';
import { aColourway, aMould, pourEvening, seven } from '../../hands/evening.ts';
import { aPicture, plain } from '../../hands/picture-files.ts';
import { aShop, show } from '../../hands/show.tsx';

const dayMs = 86_400_000;
const pick = (label: string) => page.getByLabelText(label);

test('photos and evenings are found by colour, by mould and by month', async () => {
  const shop = await aShop();
  const { book } = shop;
  const peat = await aColourway(book, 'Peat', '#5b4029');
  const lime = await aColourway(book, 'Lime', '#8fbf2f');
  const grub = await aMould(book, 'Grub 50');
  const shad = await aMould(book, 'Shad 7');
  const early = seven - 40 * dayMs;
  const evenings = [
    await pourEvening(book, { fills: [{ mould: grub, gave: 'gggg' }], colourway: peat, at: early }),
    await pourEvening(book, { fills: [{ mould: shad, gave: 'gggg' }], colourway: lime }),
  ];
  const picture = await devicePictures.remake(new Blob([await aPicture([40, 30], plain('#555'))]), {
    mostPx: mostPhotoPx,
    mostBytes: mostPhotoBytes,
  });
  const of = (sessionId: (typeof evenings)[number], mouldId: typeof grub.id) => ({
    poured: { sessionId, shotId: null, mouldId, mixId: null },
  });
  const taken: [PhotoOf, number][] = [
    [{ shows: 'bait', colourwayId: peat.id, ...of(evenings[0] as never, grub.id) }, early],
    [{ shows: 'bait', colourwayId: lime.id, ...of(evenings[1] as never, shad.id) }, seven],
    [{ shows: 'bait', colourwayId: lime.id }, early],
  ];
  for (const [one, at] of taken) await addPhoto(book, one, picture, at);
  show(shop, <FindScreen />);
  const says = (words: string) => expect.element(page.getByText(words)).toBeVisible();
  await says('3 photos, 2 evenings');
  await pick('Colour').selectOptions('Lime');
  await says('2 photos, 1 evening');
  await pick('Mould').selectOptions('Shad 7');
  await says('1 photo, 1 evening');
  await pick('Mould').selectOptions('Grub 50');
  await says('0 photos, 0 evenings');
  await says('No photo like that.');
  await pick('Colour').selectOptions('any');
  await pick('Mould').selectOptions('any');
  await pick('Month').selectOptions('Oct 2026');
  await says('2 photos, 1 evening');
  await expect
    .element(page.getByRole('link', { name: /Grub 50$/ }))
    .toHaveAttribute('href', `#/session/${evenings[0]}`);
});
