import { beforeEach, describe, expect, test, vi } from 'vitest';
import { plainForecast } from '#calc/shop-colours.ts';
import { taughtFor } from '#calc/shop-forecast.ts';
import type { EntryId, Said, SessionId, ShotId } from '#model/entry.ts';
import type { Mix } from '#model/mix.ts';
import type { Photo } from '#model/photo.ts';
import type { Stamp } from '#model/schemas.ts';
import { type Book, freshId, openBook } from '#store/book.ts';
import { colourShopOf, keepReadings } from '#store/colour-shop.ts';
import { logEntry, newEntry } from '#store/entries.ts';
import { headOf } from '#store/heads.ts';
import {
  beginSession,
  endSession,
  entriesOf,
  putIntoSession,
  putRight,
  reopenSession,
  takeBack,
} from '#store/sessions.ts';
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

test('a bait of side A alone teaches side A of the laminate that its mix became, and nothing of side B', async () => {
  const pink = aColourant('Pink', opticsOf(0.012, 0.004, 8, 9, 10, 11));
  const laminate = aMix([[drops(brown, 6)], [drops(pink, 6)]], { id: mix.id });
  await book.db.put('materials', pink);
  await book.db.put('mixes', laminate);
  // As the log tells the pot once the laminate has its name: 18 drops in two cups, as side A.
  const right = await putRightTo(18, seven);
  const pots = right.says.pots.map((pot) => ({
    ...pot,
    mix: pot.mix && { ...pot.mix, role: 'a' as const },
  }));
  await putRight(book, sessionId, { ...right, says: { ...right.says, pots } }, seven + 90_000);
  await book.db.put('photos', photo);
  const taught = taughtFor(await colourShopOf(book), null);
  expectWithin(taught.strengths.get(brown.id) ?? 0, 1, 0.01);
  expect(taught.strengths.has(pink.id)).toBe(false);
  // What is told of a spot as side B is of the one colour there is, too.
  const [reading] = photo.readings;
  if (!reading) throw new Error('Nothing was read.');
  const asB = { ...photo, readings: [{ ...reading, part: 'b' as const }] };
  await book.db.put('photos', asB);
  const again = taughtFor(await colourShopOf(book), null);
  expectWithin(again.strengths.get(brown.id) ?? 0, 1, 0.01);
  expect(again.strengths.has(pink.id)).toBe(false);
  // Its forecast of the day is that of side A.
  await keepReadings(book, photo, { thicknessMm: 10, read: [reading] }, seven + 180_000);
  const kept = await headOf(book, 'photos', photo.id);
  const want = trueLab({ materials: [brown] }, [drops(brown, 9)], {});
  for (const [at, value] of want.entries()) {
    expectWithin(kept?.readings[0]?.forecast?.[at] ?? Number.NaN, value, 1e-6);
  }
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

/** The drops a cup that the pot of the photo held, by the shop; and how many evenings were read for it. */
async function heldNow(): Promise<{ drops: number | null; read: number }> {
  let read = 0;
  const { get } = IDBObjectStore.prototype;
  const spy = vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(function (
    this: IDBObjectStore,
    ...args
  ) {
    if (this.name === 'sealed') read += 1;
    return get.apply(this, args);
  });
  const { poured } = await colourShopOf(book);
  spy.mockRestore();
  return { drops: poured?.get(photo.id)?.[0]?.doses[0]?.amount ?? null, read };
}
/** The pot with so many drops in its two cups, put right. */
async function putRightTo(amount: number, at: number) {
  const line = (await entriesOf(book, sessionId)).find(({ said }) => said.kind === 'pot-mixed');
  if (line?.said.kind !== 'pot-mixed') throw new Error('There is no pot.');
  const pots = line.said.pots.map((pot) => ({
    ...pot,
    mix: pot.mix && { ...pot.mix, doses: [drops(brown, amount)] },
  }));
  return { target: line.id, says: { ...line.said, pots }, happenedAt: at };
}

describe('an ended evening is read once for its photos', () => {
  beforeEach(async () => {
    await book.db.put('photos', photo);
    await endSession(book, sessionId, seven + 120_000);
    expect((await heldNow()).read).toBe(1);
    const { drops: held, read } = await heldNow();
    expectWithin(held ?? 0, 9, 1e-6);
    expect(read).toBe(0);
  });

  test('and again when a line of it was put right, taken back or brought again', async () => {
    await putRight(book, sessionId, await putRightTo(20, seven), seven + 200_000);
    expect(await heldNow()).toMatchObject({ read: 1 });
    expectWithin((await heldNow()).drops ?? 0, 10, 1e-6);
    const right = (await entriesOf(book, sessionId)).findLast(
      ({ said }) => said.kind === 'put-right',
    );
    await takeBack(book, sessionId, right?.id as EntryId, seven + 300_000);
    expectWithin((await heldNow()).drops ?? 0, 9, 1e-6);
    expect((await heldNow()).read).toBe(0);
  });

  test('and again when a line comes late that is older than all it had', async () => {
    const fresh = { volumeMl: 473.176473, meanHeats: 0, maxHeats: 0 };
    const poured = { mixId: mix.id, version: 1, role: 'only', plastisolId: null } as const;
    const topUp: Said = {
      kind: 'pot-topped-up',
      potId: id('pot', 1),
      ...fresh,
      mix: { ...poured, doses: [drops(brown, 2)] },
    };
    const { stamp } = (await entriesOf(book, sessionId))[0] ?? {};
    const line = await newEntry(book, sessionId, topUp, seven + 30_000);
    // Of another phone, whose clock was behind.
    const late = { ...line, stamp: `${stamp?.slice(0, -8)}00000000` as Stamp };
    const newest = async () => (await book.db.getAll('columns'))[0]?.newest;
    const before = await newest();
    await putIntoSession(book, late);
    expect(await newest()).toBe(before);
    // Eighteen and two drops in four cups.
    expectWithin((await heldNow()).drops ?? 0, 5, 1e-6);
    expect((await heldNow()).read).toBe(0);
  });

  test('and each time while it is open again, and when it began at another time', async () => {
    await reopenSession(book, sessionId, seven + 400_000);
    await putRight(book, sessionId, await putRightTo(24, seven), seven + 500_000);
    expectWithin((await heldNow()).drops ?? 0, 12, 1e-6);
    await endSession(book, sessionId, seven + 600_000);
    const begun = (await entriesOf(book, sessionId)).find(
      ({ said }) => said.kind === 'session-begun',
    );
    const says = begun?.said as Said;
    const moved = { target: begun?.id as EntryId, says, happenedAt: seven - 60_000 };
    await putRight(book, sessionId, moved, seven + 700_000);
    expectWithin((await heldNow()).drops ?? 0, 12, 1e-6);
    expect((await heldNow()).read).toBe(0);
  });

  test('a photo of another shot is looked up anew, and one of a shot that is gone is of none', async () => {
    await book.db.put('photos', { ...photo, shotId: id('shot', 7) });
    expect(await heldNow()).toEqual({ drops: null, read: 1 });
    expect(await heldNow()).toEqual({ drops: null, read: 0 });
    await book.db.put('photos', { ...photo, shotId: null });
    expectWithin((await heldNow()).drops ?? 0, 9, 1e-6);
  });

  test('a digest of an older version has no checksum: the evening is read each time', async () => {
    const [digest] = await book.db.getAll('columns');
    if (!digest) throw new Error('There is no digest.');
    const { sum: _, ...older } = digest;
    await book.db.put('columns', older);
    expect(await heldNow()).toMatchObject({ read: 1 });
    expectWithin((await heldNow()).drops ?? 0, 9, 1e-6);
  });
});
