import { beforeEach, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { SessionId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Photo } from '#model/photo.ts';
import { PhotoScreen } from '#screens/photos/PhotoScreen.tsx';
import { SessionScreen } from '#screens/pour/SessionScreen.tsx';
import { headsOf } from '#store/heads.ts';
import { photosOfSession } from '#store/photos.ts';
import { entriesOf } from '#store/sessions.ts';
import { aColourway, aMould, pourEvening } from '../../hands/evening.ts';
import { aPicture, plain } from '../../hands/picture-files.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';
import { aTable } from '../../hands/table.tsx';

let shop: TestShop;

const key = (name: string | RegExp) => page.getByRole('button', { name });

async function aFile(): Promise<File> {
  return new File([await aPicture([120, 90], plain('#5b4029'))], 'bait.jpg', {
    type: 'image/jpeg',
  });
}

async function theOnly(of: TestShop): Promise<Photo> {
  await expect
    .poll(async () => (await headsOf(of.book, 'photos')).length, { timeout: 12_000 })
    .toBe(1);
  return (await headsOf(of.book, 'photos'))[0] as Photo;
}

async function poured(colourway: Colourway): Promise<SessionId> {
  const mould = await aMould(shop.book, 'Shad');
  const fills = [
    { mould, gave: 'gggg' },
    { mould, gave: 'gsgg' },
  ];
  return await pourEvening(shop.book, { fills, colourway });
}

beforeEach(async () => {
  shop = await aShop();
});

test('a photo on the page of a session is of the evening, of its only colour', async () => {
  const peat = await aColourway(shop.book, 'Peat', '#5b4029');
  const sessionId = await poured(peat);
  show(shop, <SessionScreen sessionId={sessionId} />);
  await expect.element(page.getByText(/^A new photo is of the evening\./)).toBeVisible();
  await userEvent.upload(page.getByLabelText('Choose a picture'), await aFile());
  const photo = await theOnly(shop);
  expect(photo).toMatchObject({ sessionId, shotId: null, colourwayId: peat.id });
  await expect.element(page.getByRole('link', { name: /the evening$/ })).toBeVisible();
});

test('after a press on a shot it is of that shot, and its page leads back to it', async () => {
  const peat = await aColourway(shop.book, 'Peat', '#5b4029');
  const sessionId = await poured(peat);
  show(shop, <SessionScreen sessionId={sessionId} />);
  await key(/^Shad, shot 2/)
    .first()
    .click();
  await expect.element(page.getByText('A new photo is of Shad, shot 2.')).toBeVisible();
  await userEvent.upload(page.getByLabelText('Choose a picture'), await aFile());
  const photo = await theOnly(shop);
  const shots = (await entriesOf(shop.book, sessionId)).flatMap(({ said }) =>
    said.kind === 'filled' ? said.shots : [],
  );
  expect(photo).toMatchObject({ shotId: shots[1]?.shotId, mouldId: shots[1]?.mouldId });
  expect((await photosOfSession(shop.book, sessionId)).map(({ id }) => id)).toEqual([photo.id]);
  show(shop, <PhotoScreen photoId={photo.id} />);
  const way = page.getByRole('link', { name: 'Poured Tue 24 Nov Shad, shot 2' });
  await expect.element(way).toHaveAttribute('href', `#/session/${sessionId}`);
});

test('two presses at the table take a photo of the last shot, the table goes on, and one press takes it off', async () => {
  const table = await aTable([['Grub 50', 2, 2]]);
  await page.viewport(360, 740);
  table.pass(1_000);
  await key(/^Filled/).click();
  await expect.poll(async () => (await table.entries()).length).toBe(1);
  await key('Table').click();
  await userEvent.upload(page.getByLabelText('Photo of Grub 50, 1'), await aFile());
  const photo = await theOnly(table.shop);
  const [filled] = await table.entries();
  const shot = filled?.said.kind === 'filled' ? filled.said.shots[0] : undefined;
  expect(photo).toMatchObject({ sessionId: table.sessionId, shotId: shot?.shotId });
  expect(await table.entries()).toHaveLength(1);
  await key(/^Photo off/).click();
  await expect.poll(async () => (await headsOf(table.shop.book, 'photos')).length).toBe(0);
  await expect.element(page.getByLabelText('Photo of Grub 50, 1')).toBeInTheDocument();
});

test('what is no picture is said so, and the shot stays as it was', async () => {
  const table = await aTable([['Grub 50', 2, 2]]);
  table.pass(1_000);
  await key(/^Filled/).click();
  await expect.poll(async () => (await table.entries()).length).toBe(1);
  await key('Table').click();
  const wrong = new File(['no picture'], 'bait.jpg', { type: 'image/jpeg' });
  await userEvent.upload(page.getByLabelText('Photo of Grub 50, 1'), wrong);
  await expect
    .element(page.getByText('This is no photo. Take a JPEG, PNG or WebP picture.'))
    .toBeInTheDocument();
  expect(await table.entries()).toHaveLength(1);
  expect(await headsOf(table.shop.book, 'photos')).toEqual([]);
});
