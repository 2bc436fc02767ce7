import { expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { standingOf } from '#calc/log.ts';
import { pouredSides } from '#calc/poured-sides.ts';
import { all } from '#calc/said.ts';
import type { SessionId } from '#model/entry.ts';
import type { MixSide } from '#model/mix.ts';
import type { Photo, PhotoId } from '#model/photo.ts';
import { type Book, freshId, openBook } from '#store/book.ts';
import { colourShopOf } from '#store/colour-shop.ts';
import { poursOf } from '#store/mixes.ts';
import { entriesOf, sealedSessions } from '#store/sessions.ts';
import { aColourant, aMix, aReadPhoto, drops, opticsOf } from '../hands/colours.ts';
import { aFrozenMould, dyedPot, id, Pen } from '../hands/log.ts';
import { msOf, quantile, report, sideBySide } from './timing.ts';

const [evenings, shots, dayMs] = [15, 120, 86_400_000];
const brown = aColourant('Brown', opticsOf(0.012, 0.004, 0, 1, 2, 3, 4, 5));
const mix = aMix([[drops(brown, 6)]], { id: id('mix', 1) });

/** Fifteen evenings of 120 shots, three of each photographed and read. */
async function aShop(): Promise<Book> {
  const book = await openBook(`bench-${crypto.randomUUID()}`);
  await book.db.put('materials', brown);
  await book.db.put('mixes', mix);
  for (let number = 1; number <= evenings; number += 1) {
    const pen = new Pen();
    const startedAt = Date.UTC(2026, 10, 1, 18) + number * dayMs;
    const begun = { kind: 'session-begun', zone: 'Europe/Berlin', ambientC: 20, pourC: 165 };
    pen.write(begun as never, startedAt);
    pen.write({ kind: 'lined-up', moulds: [aFrozenMould(1)], injector: null });
    pen.write(dyedPot(1, 12));
    for (let shot = 1; shot <= shots; shot += 1) {
      pen.fill(1, shot);
      pen.log(shot, ['good', 'good', 'short', 'good']);
    }
    pen.write({ kind: 'session-ended' });
    const sessionId = id<SessionId>('session', number);
    const { entries } = pen;
    const endedAt = entries.at(-1)?.at ?? startedAt;
    await book.db.put('sealed', { id: sessionId, startedAt, endedAt, zone: 'UTC', entries });
    await book.db.put('columns', columnsOf(sessionId, entries));
    for (const shot of [5, 50, 110]) {
      const of = { sessionId, shotId: id<NonNullable<Photo['shotId']>>('shot', shot) };
      const photo = aReadPhoto(mix, [40, 10, 20], null, of);
      await book.db.put('photos', { ...photo, id: freshId<PhotoId>(startedAt + shot) });
    }
  }
  return book;
}

/** Every evening that has a read photo, whole: the plain way. */
async function wholeEvenings(book: Book): Promise<Map<PhotoId, MixSide[]>> {
  await Promise.all([book.db.getAll('materials'), book.db.getAll('mixes')]);
  const photos = await book.db.getAll('photos');
  const poured = new Map<PhotoId, MixSide[]>();
  for (const sessionId of new Set(photos.flatMap((photo) => photo.sessionId ?? []))) {
    const lines = standingOf(await entriesOf(book, sessionId));
    for (const photo of photos) {
      const sides = photo.sessionId === sessionId ? pouredSides(lines, photo, mix) : null;
      if (sides) poured.set(photo.id, sides);
    }
  }
  return poured;
}

test('what the pots of photos held, to reading their fifteen evenings whole', async () => {
  const book = await aShop();
  await wholeEvenings(book);
  let ours = new Map<PhotoId, readonly MixSide[]>();
  let whole = new Map<PhotoId, MixSide[]>();
  const read = async () => {
    ours = new Map((await colourShopOf(book)).poured ?? []);
  };
  const first = await msOf(read);
  const took = await sideBySide(10, read, async () => {
    whole = await wholeEvenings(book);
  });
  const plain = quantile(took.other, 0.5);
  report('pots of photos of 15 evenings, the first time', first / plain, '<= 2');
  report('pots of photos of 15 evenings, from then on', quantile(took.ours, 0.5) / plain, '<= 0.2');
  const byId = (sides: ReadonlyMap<PhotoId, readonly MixSide[]>) =>
    [...sides].sort(([a], [b]) => (a < b ? -1 : 1));
  expect(byId(ours)).toEqual(byId(whole));
  expect(whole.size).toBe(3 * evenings);
});

test('where a mix was poured, to reading every evening whole', async () => {
  const book = await aShop();
  let ours = 0;
  let whole = 0;
  const took = await sideBySide(
    10,
    async () => {
      ours = (await poursOf(book, [mix.id])).get(mix.id)?.length ?? 0;
    },
    async () => {
      whole = 0;
      for (const { entries } of await sealedSessions(book)) {
        const pots = all(standingOf(entries), 'pot-mixed').flatMap(({ said }) => said.pots);
        if (pots.some((pot) => pot.mix?.mixId === mix.id)) whole += 1;
      }
    },
  );
  const ratio = quantile(took.ours, 0.5) / quantile(took.other, 0.5);
  report('where a mix was poured, 15 evenings', ratio, '<= 0.2');
  expect(ours).toBe(evenings);
  expect(whole).toBe(evenings);
});
