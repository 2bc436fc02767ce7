import { afterEach, beforeEach, expect, test } from 'vitest';
import { tableOf } from '#calc/table.ts';
import { runningNow } from '#live/use-session-log.ts';
import type { EntryId } from '#model/entry.ts';
import { putBackAside } from '#store/aside.ts';
import { type Book, openBook, pennedMeta, stampOf } from '#store/book.ts';
import { keepCard } from '#store/card.ts';
import { broughtIn, undoBroughtIn } from '#store/copy/bring.ts';
import { openedFile } from '#store/copy/file.ts';
import { takenCopy } from '#store/copy/take.ts';
import { logEntry, newEntry, putEntries } from '#store/entries.ts';
import { addHead, changeHead, headOf } from '#store/heads.ts';
import { addPhoto } from '#store/photos.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { runningEntries } from '#store/running.ts';
import {
  addToSession,
  endSession,
  entriesOf,
  putIntoSession,
  reopenSession,
  takeBack,
} from '#store/sessions.ts';
import { changeSettings, settingsOf } from '#store/settings.ts';
import { startPouring } from '#store/start.ts';
import { aMould, morning, pourEvening, seven } from '../hands/evening.ts';

const min = 60_000;
const year = 365 * 86_400_000;

/** Two windows of one device on one logbook. */
let here: Book;
let there: Book;
beforeEach(async () => {
  const name = `two-hands-${crypto.randomUUID()}`;
  here = await openBook(name);
  there = await openBook(name);
});
afterEach(() => {
  for (const book of [here, there]) book.db.close();
});

/**
 * Does one thing right before the other's next strict transaction, which is then made from what was
 * read earlier: the narrowest gap there is between two windows.
 */
function rightBefore(book: Book, act: () => Promise<unknown>): void {
  const { db } = book;
  let isDone = false;
  const own = new Proxy(db, {
    get(target, field) {
      if (field !== 'transaction') {
        const value = Reflect.get(target, field);
        return typeof value === 'function' ? value.bind(target) : value;
      }
      return (...given: [never, IDBTransactionMode?]) => {
        if (!isDone && given[1] === 'readwrite') {
          isDone = true;
          // Asked for first, done first: transactions over one table are served in their order.
          void act();
        }
        return target.transaction(...(given as [never]));
      };
    },
  });
  Object.assign(book, { db: own });
}

/** A bare write of a record, in the order in which it is asked for. */
async function put(book: Book, table: 'moulds' | 'materials' | 'photos', value: object) {
  await book.db.put(table, value as never);
}

test('a line that is added while a session is opened again is not lost', async () => {
  const mould = await aMould(here, 'Grub 50');
  const sessionId = await pourEvening(here, { fills: [{ mould, gave: 'gggg' }] });
  const sealed = await there.db.get('sealed', sessionId);
  const note = await newEntry(there, sessionId, { kind: 'noted', text: 'Cold shop.' }, morning);
  rightBefore(here, async () => {
    const entries = [...(sealed?.entries ?? []), note];
    await there.db.put('sealed', { ...sealed, entries } as never);
  });
  await reopenSession(here, sessionId, morning + min);
  const entries = await entriesOf(here, sessionId);
  expect(entries.map(({ id }) => id)).toContain(note.id);
  expect(tableOf(entries).endedAt).toBeNull();
});

test('a mould that is changed while a session ends keeps what it was changed to', async () => {
  const mould = await aMould(here, 'Grub 50');
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
  const sessionId = await startPouring(here, beginning, seven);
  await logEntry(
    here,
    sessionId,
    { kind: 'set-time-chosen', mouldId: mould.id, setSec: 200, hasNoClock: false },
    seven + min,
  );
  const stamp = (await newEntry(there, sessionId, { kind: 'noted', text: '.' }, seven + 2 * min))
    .stamp;
  rightBefore(here, () =>
    put(there, 'moulds', { ...mould, massG: 900, stamps: { ...mould.stamps, massG: stamp } }),
  );
  await endSession(here, sessionId, seven + 5 * min);
  expect(await headOf(here, 'moulds', mould.id)).toMatchObject({ massG: 900, setSec: 200 });
});

test('a card that is read keeps what another window set of its photo and its material meanwhile', async () => {
  const facts = { ...plainMaterial('colourant'), name: 'Peat' };
  const material = await addHead(here, 'materials', facts, seven);
  const picture = { bytes: new ArrayBuffer(4), mediaType: 'image/jpeg', widthPx: 4, heightPx: 4 };
  const of = { shows: 'card', materialId: material.id } as const;
  const photo = await addPhoto(here, of, picture as never, seven);
  // The card is open here; the material and the photo are changed there.
  await changeHead(there, 'materials', material.id, { reorderAt: 5 }, seven + min);
  await changeHead(there, 'photos', photo.id, { rating: 4 }, seven + min);
  const absorbPerMm = Array<number>(16).fill(0.1);
  const optics = { absorbPerMm, scatterPerMm: 0.1, dosePerCup: 10, isOnCard: true };
  const reading = { part: 'only', lab: [50, 0, 0], fault: null, forecast: null } as const;
  const read = { material, optics, thicknessMm: 4, reading: { ...reading, lab: [50, 0, 0] } };
  await keepCard(here, photo, read as never, seven + 2 * min);
  expect(await headOf(here, 'materials', material.id)).toMatchObject({ reorderAt: 5, optics });
  expect(await headOf(here, 'photos', photo.id)).toMatchObject({ rating: 4, thicknessMm: 4 });
});

test('what was set aside and came back otherwise is not turned back when it is mended', async () => {
  const mould = await aMould(here, 'Grub 50');
  const name = `aside moulds ${mould.id}` as const;
  const record = { ...mould, section: 'nonsense' };
  await here.db.put('meta', { name, table: 'moulds', key: mould.id, record, foundAt: seven });
  // Meanwhile it came with a copy file, and was changed.
  await changeHead(here, 'moulds', mould.id, { name: 'Grub 60', massG: 900 }, seven);
  await putBackAside(here, name, morning);
  expect(await headOf(here, 'moulds', mould.id)).toMatchObject({ name: 'Grub 60', massG: 900 });
});

test('what is written while a file is being taken out again stays', async () => {
  const other = await openBook(`two-hands-${crypto.randomUUID()}`);
  const mould = await aMould(other, 'Shad 7');
  const file = await takenCopy(other, { withPhotos: false, words: null, version: '1' }, morning);
  other.db.close();
  await broughtIn(here, await openedFile(file.file, null), {
    name: 'x',
    at: morning,
    version: '1',
  });
  // Its name is changed there, after the last look and before the first write.
  const stamp = stampOf(there, morning + year);
  const changed = { ...mould, name: 'Shad 8', stamps: { ...mould.stamps, name: stamp } };
  rightBefore(here, async () => {
    const tx = there.db.transaction(['moulds', 'meta'], 'readwrite');
    void tx.objectStore('moulds').put(changed);
    void tx.objectStore('meta').put(pennedMeta(there));
  });
  expect(await undoBroughtIn(here)).toBe('written-since');
  expect((await headOf(here, 'moulds', mould.id))?.name).toBe('Shad 8');
});

test('a window that has not heard of later stamps still has the last word', async () => {
  const mould = await aMould(here, 'Grub 50');
  // A file from a phone whose clock is a year ahead came in here.
  await changeHead(here, 'moulds', mould.id, { name: 'Grub 60' }, seven + year);
  await changeSettings(here, { palette: 'lamp' }, seven + year);
  await changeHead(there, 'moulds', mould.id, { name: 'Grub 70' }, morning);
  await changeSettings(there, { palette: 'chalk' }, morning);
  expect((await headOf(here, 'moulds', mould.id))?.name).toBe('Grub 70');
  expect((await settingsOf(here)).palette).toBe('chalk');
});

test('a press in a window that has not heard of later stamps comes after what it saw', async () => {
  const mould = await aMould(here, 'Grub 50');
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
  const sessionId = await startPouring(here, beginning, seven + year);
  const seen = await runningEntries(there);
  await logEntry(there, sessionId, { kind: 'noted', text: 'After all that.' }, morning);
  const entries = await entriesOf(here, sessionId);
  expect(entries).toHaveLength((seen?.length ?? 0) + 1);
  expect(entries.at(-1)?.said).toEqual({ kind: 'noted', text: 'After all that.' });
});

test('a line for a session that ends in the same moment finds its way into it', async () => {
  const mould = await aMould(here, 'Grub 50');
  const fills = [{ mould, gave: 'gggg' }];
  const sessionId = await pourEvening(here, { fills, endMin: null });
  const line = await newEntry(here, sessionId, { kind: 'noted', text: 'Late.' }, seven + 20 * min);
  // Read as running here, ended there before it is written.
  const { get } = here.db;
  const late = { ...here, db: new Proxy(here.db, { get: afterEnd }) };
  function afterEnd(db: Book['db'], field: string) {
    const value = Reflect.get(db, field);
    if (field !== 'get') return typeof value === 'function' ? value.bind(db) : value;
    return async (...given: Parameters<typeof get>) => {
      const found = await db.get(...given);
      await endSession(there, sessionId, seven + 30 * min);
      return found;
    };
  }
  await putIntoSession(late, line);
  const found = await entriesOf(here, sessionId);
  expect(found.map(({ id }) => id)).toContain(line.id);
  expect(await runningNow(here)).toBeNull();
});

test('a press that reaches a session after its end is no session of its own', async () => {
  const mould = await aMould(here, 'Grub 50');
  const sessionId = await pourEvening(here, { fills: [{ mould, gave: 'gggg' }] });
  const late = await newEntry(here, sessionId, { kind: 'noted', text: 'Late.' }, seven + min);
  await putEntries(here, [late]);
  expect(await runningNow(here)).toBeNull();
  const entries = await entriesOf(here, sessionId);
  expect(entries.map(({ id }) => id)).toContain(late.id);
  expect(entries.length).toBeGreaterThan(3);
  await takeBack(here, sessionId, late.id as EntryId, morning);
  await addToSession(here, sessionId, { kind: 'noted', text: 'Later.' }, morning);
  expect(await runningNow(here)).toBeNull();
});
