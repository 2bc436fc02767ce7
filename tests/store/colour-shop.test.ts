import { beforeEach, expect, test } from 'vitest';
import { plainForecast } from '#calc/shop-colours.ts';
import { taughtFor } from '#calc/shop-forecast.ts';
import type { SessionId, ShotId } from '#model/entry.ts';
import type { Mix } from '#model/mix.ts';
import type { Photo } from '#model/photo.ts';
import { type Book, freshId, openBook } from '#store/book.ts';
import { colourShopOf, keepReadings } from '#store/colour-shop.ts';
import { logEntry } from '#store/entries.ts';
import { headOf } from '#store/heads.ts';
import { beginSession, endSession } from '#store/sessions.ts';
import { aColourant, aMix, aReadPhoto, drops, opticsOf, trueLab } from '../hands/colours.ts';
import { seven } from '../hands/evening.ts';
import { aFrozenMould, filled, id, potMixed } from '../hands/log.ts';
import { expectWithin } from '../hands/within.ts';

const brown = aColourant('Brown', opticsOf(0.012, 0.004, 0, 1, 2, 3, 4, 5));
const body = { thicknessMm: 10, backing: 0.85 };
const shotId = id<ShotId>('shot', 1);

let book: Book;
let mix: Mix;
let sessionId: SessionId;
let photo: Photo;

beforeEach(async () => {
  book = await openBook(`colours-${crypto.randomUUID()}`);
  mix = aMix([[drops(brown, 6)]]);
  await book.db.put('materials', brown);
  await book.db.put('mixes', mix);
  const pot = potMixed(1);
  if (pot.kind !== 'pot-mixed') throw new Error('That is no pot.');
  // Nine drops a cup went in, where six are written: the hand at the table had its reasons.
  const poured = { mixId: mix.id, version: 1, role: 'only', plastisolId: null } as const;
  const pots = pot.pots.map((one) => ({ ...one, mix: { ...poured, doses: [drops(brown, 18)] } }));
  sessionId = await beginSession(
    book,
    [
      { kind: 'session-begun', zone: 'Europe/Berlin', ambientC: 20, pourC: 165 },
      { kind: 'lined-up', moulds: [aFrozenMould(1)], injector: null },
      { ...pot, pots },
    ],
    seven,
  );
  await logEntry(book, sessionId, filled(1, 1), seven + 60_000);
  const lab = trueLab({ materials: [brown] }, [drops(brown, 9)], {});
  photo = aReadPhoto(mix, lab, null, { sessionId, shotId });
});

test('learning goes by what the pot of the shot held, in a running evening and in a sealed one', async () => {
  await book.db.put('photos', photo);
  for (const isEnded of [false, true]) {
    if (isEnded) await endSession(book, sessionId, seven + 120_000);
    const shop = await colourShopOf(book);
    expectWithin(shop.poured?.get(photo.id)?.[0]?.doses[0]?.amount ?? 0, 9, 1e-6);
    expectWithin(taughtFor(shop, null).strengths.get(brown.id) ?? 0, 1, 0.01);
  }
  // A photo of no evening is of the mix as it is written: six drops that look like nine.
  const loose = { ...photo, id: freshId<Photo['id']>(seven), sessionId: null, shotId: null };
  await book.db.delete('photos', photo.id);
  await book.db.put('photos', loose);
  const written = await colourShopOf(book);
  expect(written.poured?.size).toBe(0);
  expect(taughtFor(written, null).strengths.get(brown.id)).toBeGreaterThan(1.08);
});

test('beside a reading stands the forecast of what was poured', async () => {
  await book.db.put('photos', { ...photo, readings: [], thicknessMm: null });
  const [{ part, lab, fault } = { part: 'only', lab: [0, 0, 0], fault: null } as const] =
    photo.readings;
  const read = [{ part, lab: [...lab] as [number, number, number], fault }];
  await keepReadings(book, photo, { thicknessMm: 10, read }, seven + 180_000);
  const kept = await headOf(book, 'photos', photo.id);
  const nine = aMix([[drops(brown, 9)]]);
  const [side] = nine.sides;
  if (!side) throw new Error('A mix has a side.');
  const want = plainForecast({ materials: [brown], mixes: [], photos: [] }, nine, side, body);
  for (const [at, value] of (want ?? []).entries()) {
    expectWithin(kept?.readings[0]?.forecast?.[at] ?? Number.NaN, value, 1e-6);
  }
  expect(want).not.toBeNull();
});
