import { afterEach, beforeEach, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Lab } from '#calc/colour.ts';
import { standingOf } from '#calc/log.ts';
import { pouredIn } from '#calc/poured-bait.ts';
import { plainForecast } from '#calc/shop-colours.ts';
import { tableOf } from '#calc/table.ts';
import type { SaidOf, SessionId, ShotId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import { ColourScreen } from '#screens/colours/ColourScreen.tsx';
import { PhotosScreen } from '#screens/photos/PhotosScreen.tsx';
import { type Book, openBook } from '#store/book.ts';
import { newEntry } from '#store/entries.ts';
import { joinWindows } from '#store/notice.ts';
import { entriesOf } from '#store/sessions.ts';
import { startPouring } from '#store/start.ts';
import { aColourant, aMix, aReadPhoto, drops, opticsOf } from '../../hands/colours.ts';
import { aColourway, aMould, seven } from '../../hands/evening.ts';
import { id } from '../../hands/log.ts';
import { potOf } from '../../hands/mixes.ts';
import { aShop, show, type TestShop } from '../../hands/show.tsx';

const brown = aColourant('Brown', opticsOf(0.012, 0.004, 0, 1, 2, 3, 4, 5));
let shop: TestShop;
let elsewhere: Book;
let channel: BroadcastChannel;
let leave: () => void;
let peat: Colourway;
let mix: Mix;
let sessionId: SessionId;

beforeEach(async () => {
  await page.viewport(360, 740);
  shop = await aShop();
  const { book } = shop;
  leave = joinWindows(book.db.name);
  channel = new BroadcastChannel(`${book.db.name}-written`);
  elsewhere = await openBook(book.db.name);
  peat = await aColourway(book, 'Peat', '#5b4029');
  await book.db.put('materials', brown);
  mix = aMix([[drops(brown, 6)]], { colourwayId: peat.id });
  await book.db.put('mixes', mix);
  const mould = await aMould(book, 'Grub 50');
  const zone = 'Europe/Berlin';
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone };
  sessionId = await startPouring(book, beginning, seven);
});
afterEach(() => {
  leave();
  channel.close();
});

/** The other window writes a line of the running session, and tells so. */
async function write(said: Parameters<typeof newEntry>[2], at: number) {
  const entry = await newEntry(elsewhere, sessionId, said, at);
  await elsewhere.db.put('entries', entry);
  channel.postMessage(['entries']);
  return entry;
}

const says = (words: string | RegExp) =>
  expect.element(page.getByText(words).first()).toBeVisible();

test('a pot that another window mixes, and puts right, is on the page of its colour at once', async () => {
  show(shop, <ColourScreen colourwayId={peat.id} />);
  await says('not poured yet');
  const said = potOf(mix, seven) as SaidOf<'pot-mixed'>;
  const pot = await write(said, seven + 60_000);
  await says(/^poured 1 time/);
  const mouldId = tableOf(await entriesOf(elsewhere, sessionId)).seats[0]?.mould.mouldId;
  if (!mouldId) throw new Error('There is no mould.');
  const [shotId, potIds] = [id<ShotId>('shot', 1), said.pots.map(({ potId }) => potId)];
  const shot = { shotId, mouldId, volumeMl: 42, closed: [], setSec: 180 };
  await write({ kind: 'filled', shots: [shot], potIds, injectorId: null }, seven + 120_000);
  const table = tableOf(await entriesOf(elsewhere, sessionId));
  const [own] = table.shots;
  if (!own) throw new Error('There is no shot.');
  const { colourwayId: _, ...poured } = pouredIn(table, sessionId, own);
  const [side] = mix.sides;
  if (!side) throw new Error('A mix has a side.');
  const body = { thicknessMm: 10, backing: 0.85 };
  const lab = plainForecast(
    { materials: [brown], mixes: [mix], photos: [] },
    mix,
    side,
    body,
  ) as Lab;
  await shop.book.db.put('photos', aReadPhoto(mix, lab, lab, { ...poured }));
  channel.postMessage(['photos']);
  await says(/^Guess from 1 photo of yours/);
  // It held old plastic, it turns out: what its bait shows is not the colour of the mix.
  const right = { ...said, pots: said.pots.map((one) => ({ ...one, meanHeats: 1, maxHeats: 1 })) };
  const happenedAt = standingOf([pot])[0]?.at ?? seven;
  await write({ kind: 'put-right', target: pot.id, says: right, happenedAt }, seven + 180_000);
  await expect.element(page.getByText(/^Guess from/)).not.toBeInTheDocument();
  await says(/^Guess\. Usually off/);
});

test('a photo of a mix that another window names comes to the photos of its colour at once', async () => {
  const nameless = { ...aMix([[drops(brown, 6)]]), colourwayId: null };
  await shop.book.db.put('mixes', nameless);
  await shop.book.db.put('photos', {
    ...aReadPhoto(nameless, [40, 10, 20], null),
    colourwayId: null,
  });
  show(shop, <PhotosScreen colourwayId={peat.id} />);
  await says(/No photo/);
  await elsewhere.db.put('mixes', { ...nameless, colourwayId: peat.id });
  channel.postMessage(['mixes']);
  await expect.element(page.getByText(/No photo/)).not.toBeInTheDocument();
});
