import { expect, test } from 'vitest';
import { mergedEntries } from '#calc/merge.ts';
import { tableOf } from '#calc/table.ts';
import type { Mould } from '#model/mould.ts';
import { type Book, openBook } from '#store/book.ts';
import { broughtIn, lastBroughtIn, undoBroughtIn } from '#store/copy/bring.ts';
import { countOf, differenceOf, isNothing, unlisted } from '#store/copy/difference.ts';
import { openedFile } from '#store/copy/file.ts';
import { carried } from '#store/copy/header.ts';
import { type Copy, takenCopy } from '#store/copy/take.ts';
import { fillDemo } from '#store/demo.ts';
import { logEntry } from '#store/entries.ts';
import { addHead, changeHead, headsOf, setDeleted } from '#store/heads.ts';
import { endSession, entriesOf, reopenSession, runningEntries } from '#store/sessions.ts';
import { plainMould } from '#store/start.ts';
import { aMould, morning, pourEvening, seven } from '../../hands/evening.ts';
import { dumpOf, fillShop, stockLine } from '../../hands/full-shop.ts';
import { seeded } from '../../hands/seeded.ts';

const openFresh = () => openBook(`copy-${crypto.randomUUID()}`);
const wish = { withPhotos: true, words: null, version: '1.2.3' };
const take = (book: Book, words: string | null = null): Promise<Copy> =>
  takenCopy(book, { ...wish, words }, morning);
async function bring(book: Book, { file }: { file: Blob }, words: string | null = null) {
  const about = { name: 'shop.warmshot', at: morning, version: '1.2.3' };
  return await broughtIn(book, await openedFile(file, words), about);
}

test.each([null, 'lamp river stone apple tiny frog'])(
  'one file brings every table to a clean phone, running session included (words: %s)',
  async (words) => {
    const book = await openFresh();
    await fillShop(book);
    const dump = await dumpOf(book);
    for (const [table, rows] of Object.entries(dump)) expect(rows.length, table).toBeGreaterThan(0);
    const copy = await take(book, words);
    expect(copy.faults).toEqual([]);
    for (const table of carried) expect(copy.counts[table], table).toBe(dump[table]?.length);

    const clean = await openFresh();
    const told = await differenceOf(clean, await openedFile(copy.file, words));
    const difference = await bring(clean, copy, words);
    expect(difference).toEqual(told);
    expect(await dumpOf(clean)).toEqual(dump);
    expect(difference.faults).toEqual([]);
    expect(countOf(difference, 'sealed', 'brings')).toBe(2);
    expect(countOf(difference, 'entries', 'brings')).toBe(1);
    expect(countOf(difference, 'moulds', 'brings')).toBe(1);
    expect(countOf(difference, 'moulds', 'brings-off')).toBe(1);
    expect(await runningEntries(clean)).toEqual(await runningEntries(book));
    // What is written on the clean phone from now on is later than all that came.
    const mould = await addHead(
      clean,
      'moulds',
      { ...plainMould({ rows: 1, cols: 2 }), name: 'N' },
      1e12,
    );
    expect((mould.stamps.name ?? '') > (book.lastStamp ?? '')).toBe(true);
  },
);

test('the same file twice is the file once, and the second time says that nothing comes', async () => {
  const book = await openFresh();
  await fillShop(book);
  const copy = await take(book);
  const clean = await openFresh();
  await bring(clean, copy);
  const once = await dumpOf(clean);
  expect(isNothing(await differenceOf(clean, await openedFile(copy.file, null)))).toBe(true);
  expect(isNothing(await bring(clean, copy))).toBe(true);
  expect(await dumpOf(clean)).toEqual(once);
  expect(isNothing(await bring(book, copy))).toBe(true);
});

test('the difference is told before anything is written, and is what then comes', async () => {
  const [book, other] = [await openFresh(), await openFresh()];
  await fillShop(book, false);
  await bring(other, await take(book));
  const [mould] = await headsOf(book, 'moulds');
  const [sessionId] = await book.db.getAllKeys('sealed');
  if (!mould || !sessionId) throw new Error('The shop is empty.');
  await changeHead(book, 'moulds', mould.id, { massG: 2_500 }, morning);
  await aMould(book, 'Craw 40');
  await pourEvening(book, { fills: [{ mould, gave: 'gggg' }], at: morning });
  await reopenSession(book, sessionId as never, morning);
  await logEntry(book, sessionId as never, { kind: 'noted', text: 'late' }, morning);
  const copy = await take(book);

  const before = await dumpOf(other);
  const told = await differenceOf(other, await openedFile(copy.file, null));
  expect(await dumpOf(other)).toEqual(before);
  expect(countOf(told, 'moulds', 'brings')).toBe(1);
  expect(countOf(told, 'moulds', 'changes')).toBe(1);
  expect(countOf(told, 'sealed', 'brings')).toBe(1);
  expect(countOf(told, 'entries', 'changes')).toBe(1);
  const late = told.list.find(({ table }) => table === 'entries');
  expect(late?.session?.newIds).toHaveLength(2);
  const heavier = told.list.find(({ table, what }) => table === 'moulds' && what === 'changes');
  expect(heavier?.fields).toEqual([{ field: 'massG', before: mould.massG, after: 2_500 }]);
  expect(await bring(other, copy)).toEqual(told);
  expect(await dumpOf(other)).toEqual(await dumpOf(book));
  // What is kept of it says the same, without the lines that are in the logbook now.
  const kept = await lastBroughtIn(other);
  expect(kept?.difference.list.map(({ fields }) => fields)).toEqual(
    told.list.map(({ fields }) => fields),
  );
  expect(kept?.difference.list.flatMap(({ session }) => session?.entries ?? [])).toEqual([]);
});

test('what a list does not show is counted, also where things come off their list', async () => {
  const [book, other] = [await openFresh(), await openFresh()];
  const moulds = [];
  for (let number = 0; number < 305; number += 1) moulds.push(await aMould(book, `M${number}`));
  await setDeleted(book, 'moulds', (moulds[3] as Mould).id, morning, morning);
  const told = await differenceOf(other, await openedFile((await take(book)).file, null));
  expect(told.list).toHaveLength(300);
  // One comes already taken off, and is in no list.
  expect(unlisted(told)).toBe(4);
});

test('two phones that went apart come to the same logbook, in whatever order their files are opened', async () => {
  const chance = seeded(9);
  const first = await openFresh();
  await fillShop(first);
  const start = await take(first);
  const phones = await Promise.all([0, 1, 2].map(() => openFresh()));
  for (const phone of phones) await bring(phone, start);
  for (const [number, phone] of phones.entries()) await goOn(phone, number, chance);
  const copies = await Promise.all(phones.map((phone) => take(phone)));
  const orders = [
    [0, 1, 2],
    [2, 1, 0],
    [1, 2, 1, 0, 2],
  ];
  const dumps = [];
  for (const [number, phone] of phones.entries()) {
    for (const copy of orders[number] ?? []) await bring(phone, copies[copy] as Copy);
    dumps.push(await dumpOf(phone));
  }
  expect(dumps[1]).toEqual(dumps[0]);
  expect(dumps[2]).toEqual(dumps[0]);
  // The running session of the start was ended on one phone: now it is ended on all.
  expect(dumps[0]?.entries).toEqual([]);
  expect(dumps[0]?.sealed).toHaveLength(2 + 1 + 3);
});

/** A phone goes on alone: new mould and session, changed heads, lines in the running session. */
async function goOn(book: Book, number: number, chance: () => number): Promise<void> {
  const at = morning + Math.floor(chance() * 3_600_000);
  const [mould] = await headsOf(book, 'moulds');
  const [material] = await headsOf(book, 'materials');
  const running = await runningEntries(book);
  const sessionId = running?.[0]?.sessionId;
  if (!mould || !material || !sessionId) throw new Error('The shop did not come over.');
  await changeHead(
    book,
    'moulds',
    mould.id,
    number === 1 ? { massG: 900 } : { name: `G${number}` },
    at,
  );
  await stockLine(book, material.id, { kind: 'counted', level: number }, at);
  await logEntry(book, sessionId, { kind: 'noted', text: `phone ${number}` }, at);
  if (number === 2) await endSession(book, sessionId, at + 1_000);
  const own = await aMould(book, `Own ${number}`);
  await pourEvening(book, { fills: [{ mould: own, gave: 'gsgg' }], at: at + 60_000 });
}

test('an import is undone to the last byte, but not over what was written since', async () => {
  const [book, other] = [await openFresh(), await openFresh()];
  await fillShop(book);
  await bring(other, await take(book));
  await goOn(book, 2, seeded(3));
  const before = await dumpOf(other);
  await bring(other, await take(book));
  expect(await dumpOf(other)).not.toEqual(before);
  expect((await lastBroughtIn(other))?.canUndo).toBe(true);
  expect(await undoBroughtIn(other)).toBe('undone');
  expect(await dumpOf(other)).toEqual(before);
  expect(await undoBroughtIn(other)).toBe('nothing-to-undo');

  await bring(other, await take(book));
  await aMould(other, 'Since');
  const since = await dumpOf(other);
  expect((await lastBroughtIn(other))?.canUndo).toBe(false);
  expect(await undoBroughtIn(other)).toBe('written-since');
  expect(await dumpOf(other)).toEqual(since);
});

test('a session that runs here and has ended there is ended, with the lines of both', async () => {
  const [here, there] = [await openFresh(), await openFresh()];
  await fillShop(here);
  await bring(there, await take(here));
  const sessionId = (await runningEntries(here))?.[0]?.sessionId;
  if (!sessionId) throw new Error('No session runs.');
  await logEntry(here, sessionId, { kind: 'noted', text: 'here' }, morning);
  await endSession(there, sessionId, morning + 1_000);
  const both = mergedEntries(await entriesOf(here, sessionId), await entriesOf(there, sessionId));
  await bring(here, await take(there));
  expect(await runningEntries(here)).toBeNull();
  expect(await entriesOf(here, sessionId)).toEqual(both);
  expect(tableOf(both).notes.map(({ text }) => text)).toEqual(['here']);
});

test('the demo shop of a whole year goes out and comes in again in seconds', async () => {
  const book = await openFresh();
  const bytes = await (await fetch('/demo-shop.bin')).arrayBuffer();
  await fillDemo(book, bytes, { at: seven, zone: 'Europe/Berlin' });
  const copy = await take(book);
  const clean = await openFresh();
  await bring(clean, copy);
  expect(await dumpOf(clean)).toEqual(await dumpOf(book));
  expect(copy.file.size).toBeLessThan(2_000_000);
});
