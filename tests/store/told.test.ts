import { deleteDB } from 'idb';
import { expect, test } from 'vitest';
import { footingOf, isBlank } from '#store/footing.ts';
import { setDeleted } from '#store/heads.ts';
import { announce } from '#store/notice.ts';
import { addPhoto } from '#store/photos.ts';
import { changeSettings } from '#store/settings.ts';
import { aColourway, aMould, morning, seven } from '../hands/evening.ts';
import { fillShop, jpegBytes } from '../hands/full-shop.ts';
import { aWindow, type Window } from '../hands/second-copy.ts';

const freshName = () => `told-${crypto.randomUUID()}`;

/** A photo of a bait, bytes and all. */
async function aPhoto({ book }: Window, colour: string) {
  const { id: colourwayId } = await aColourway(book, colour, '#5b4029');
  const shape = { mediaType: 'image/jpeg', widthPx: 4, heightPx: 3 } as const;
  const picture = { ...shape, bytes: jpegBytes.slice().buffer };
  return await addPhoto(book, { shows: 'bait', colourwayId }, picture, seven);
}

/** What is remembered outside of the database. */
const remembered = (name: string) =>
  JSON.parse(localStorage.getItem(`${name}-kept`) ?? '{}').held ?? {};

test('a logbook is blank only when no table of it holds anything', async () => {
  const window = await aWindow(freshName());
  expect(await isBlank(window.book)).toBe(true);
  await changeSettings(window.book, { palette: 'lamp' }, seven);
  expect(await isBlank(window.book)).toBe(false);
  expect((await footingOf(window.book)).isEmpty).toBe(true);
  window.close();
  const full = await aWindow(freshName());
  await fillShop(full.book, false);
  for (const table of full.book.db.objectStoreNames) {
    const other = await aWindow(freshName());
    for (const record of await full.book.db.getAll(table)) await other.book.db.put(table, record);
    const isOfNoUse = ['meta', 'drafts', 'columns', 'entries'].includes(table);
    expect(await isBlank(other.book), table).toBe(isOfNoUse);
    other.close();
  }
  full.close();
});

test('a shop of colours, mixes, materials and stock alone, lost from both places, is told', async () => {
  const name = freshName();
  const first = await aWindow(name);
  await first.safety.start();
  await fillShop(first.book, false);
  for (const table of ['moulds', 'sealed', 'columns', 'injectors'] as const) {
    await first.book.db.clear(table);
  }
  await first.safety.check();
  first.close();
  const second = await aWindow(name);
  await second.safety.start();
  await aMould(second.book, 'Grub 50');
  await expect.poll(() => remembered(name).others ?? 0).toBeGreaterThan(6);
  const { records } = remembered(name);
  second.close();
  await deleteDB(name);
  const root = await navigator.storage.getDirectory();
  await expect
    .poll(() =>
      root.removeEntry(name, { recursive: true }).then(
        () => true,
        () => false,
      ),
    )
    .toBe(true);

  const third = await aWindow(name);
  expect(await isBlank(third.book)).toBe(true);
  // What the first page of an empty shop is kept away by.
  expect(remembered(name).records).toBe(records);
  await third.safety.start();
  const { missingEntries, missingMoulds, missingOthers } = third.safety.state().untold ?? {};
  expect((missingEntries ?? 0) + (missingMoulds ?? 0) + (missingOthers ?? 0)).toBe(records);
  expect(missingOthers).toBeGreaterThan(6);
  // It stays remembered until it was read.
  expect(remembered(name).records).toBe(records);
  third.safety.noted();
  expect(remembered(name).records).toBe(0);
  third.close();
});

test('pictures that no second copy holds are told once the rest is back, and only the lost ones', async () => {
  const name = freshName();
  const first = await aWindow(name);
  await first.safety.start();
  await aPhoto(first, 'Peat brown');
  await aPhoto(first, 'Ink');
  const off = await aPhoto(first, 'Old ink');
  await setDeleted(first.book, 'photos', off.id, morning, morning);
  // One came as from a copy without photos: what is known is no loss.
  const bare = await aPhoto(first, 'Rust');
  await expect.poll(() => remembered(name).pictures).toBe(3);
  await first.book.db.delete('photo-bytes', bare.id);
  announce('photo-bytes');
  await expect.poll(() => remembered(name)).toMatchObject({ pictures: 2, bare: 1 });
  await first.safety.check();
  expect(first.safety.state().untold).toBeNull();
  first.close();
  await deleteDB(name);

  const second = await aWindow(name);
  await second.safety.start();
  expect(second.safety.state().untold).toMatchObject({ missingPictures: 2, missingOthers: 0 });
  expect(await second.book.db.count('photos')).toBe(4);
  second.safety.noted();
  expect(remembered(name)).toMatchObject({ pictures: 0, bare: 3 });
  await second.safety.check();
  expect(second.safety.state().untold).toBeNull();
  second.close();
});
