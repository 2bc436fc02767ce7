import { expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { tableOf } from '#calc/table.ts';
import type { SessionId } from '#model/entry.ts';
import { type Book, openBook } from '#store/book.ts';
import { logEntry, undoEntry } from '#store/entries.ts';
import { addHead, changeHead, headOf, headsOf, setDeleted } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { subscribe } from '#store/notice.ts';
import {
  addToSession,
  beginSession,
  endSession,
  entriesOf,
  putRight,
  reopenSession,
  runningEntries,
  sealedSessions,
  takeBack,
} from '#store/sessions.ts';
import { lastTime, plainMould, startPouring } from '#store/start.ts';
import { aFrozenMould, evening, filled, id } from '../hands/log.ts';

const min = 60_000;
const openFresh = () => openBook(`sessions-${crypto.randomUUID()}`);
const opening = [
  { kind: 'session-begun', zone: 'Europe/Berlin', ambientC: 20, pourC: 165 },
  { kind: 'lined-up', moulds: [aFrozenMould(1)], injector: null },
] as const;

async function begun(book: Book): Promise<SessionId> {
  return await beginSession(book, [...(opening as never as [])], evening);
}

async function poured(book: Book, shots = 3): Promise<SessionId> {
  const sessionId = await begun(book);
  for (let shot = 1; shot <= shots; shot += 1) {
    await logEntry(book, sessionId, filled(1, shot), evening + shot * 5 * min);
    await logEntry(
      book,
      sessionId,
      {
        kind: 'opened',
        shots: [{ shotId: id('shot', shot), results: ['good', 'short', 'good', 'good'] }],
      },
      evening + shot * 5 * min + 3 * min,
    );
  }
  return sessionId;
}

test('a press is there when the logbook is opened again', async () => {
  const name = `sessions-${crypto.randomUUID()}`;
  const book = await openBook(name);
  await poured(book, 2);
  book.db.close();
  const again = await openBook(name);
  const entries = await runningEntries(again);
  expect(tableOf(entries ?? []).shots).toHaveLength(2);
  expect(again.device).toBe(book.device);
  expect(again.lastStamp).toBe(book.lastStamp);
});

test('the newest stamp survives a reload with a clock turned back a year', async () => {
  const name = `sessions-${crypto.randomUUID()}`;
  const book = await openBook(name);
  const sessionId = await poured(book, 1);
  const last = book.lastStamp ?? '';
  book.db.close();
  const again = await openBook(name);
  const entry = await logEntry(again, sessionId, filled(1, 9), evening - 365 * 86_400_000);
  expect(entry.stamp > last).toBe(true);
});

test('one press is one readwrite transaction and reads nothing', async () => {
  const book = await openFresh();
  const sessionId = await begun(book);
  const opened: string[] = [];
  const real = book.db.transaction.bind(book.db);
  const watched = new Proxy(book.db, {
    get(db, key) {
      if (key !== 'transaction') return Reflect.get(db, key);
      return (...args: Parameters<typeof real>) => {
        opened.push(`${args[0]} ${args[1]} ${args[2]?.durability}`);
        return real(...args);
      };
    },
  });
  await logEntry({ ...book, db: watched }, sessionId, filled(1, 1), evening + min);
  expect(opened).toEqual(['entries readwrite strict']);
});

test('undo takes back exactly its entry', async () => {
  const book = await openFresh();
  const sessionId = await begun(book);
  await logEntry(book, sessionId, filled(1, 1), evening + min);
  const second = await logEntry(book, sessionId, filled(1, 2), evening + 2 * min);
  await undoEntry(book, sessionId, second.id, evening + 3 * min);
  const shots = tableOf(await entriesOf(book, sessionId)).shots;
  expect(shots.map((shot) => shot.id)).toEqual([id('shot', 1)]);
});

test('an ended session is one sealed record with its digest, and nothing runs', async () => {
  const book = await openFresh();
  const sessionId = await poured(book);
  const before = await entriesOf(book, sessionId);
  await endSession(book, sessionId, evening + 60 * min);
  expect(await runningEntries(book)).toBeNull();
  const [sealed] = await sealedSessions(book);
  expect(sealed?.entries.slice(0, -1)).toEqual(before);
  expect(sealed).toMatchObject({ startedAt: evening, endedAt: evening + 60 * min });
  expect(await allColumns(book)).toEqual([columnsOf(sessionId, sealed?.entries ?? [])]);
});

test('what was closed and chosen at the table moves into the mould at the end', async () => {
  const book = await openFresh();
  const mould = await addHead(
    book,
    'moulds',
    { ...plainMould({ rows: 2, cols: 2 }), name: 'Grub' },
    evening,
  );
  const sessionId = await startPouring(
    book,
    { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' },
    evening,
  );
  await logEntry(
    book,
    sessionId,
    { kind: 'cavity-closed', mouldId: mould.id, cavity: 3, isClosed: true },
    evening + min,
  );
  await logEntry(
    book,
    sessionId,
    { kind: 'set-time-chosen', mouldId: mould.id, setSec: 210, hasNoClock: false },
    evening + 2 * min,
  );
  await endSession(book, sessionId, evening + 9 * min);
  const after = await headOf(book, 'moulds', mould.id);
  expect(after).toMatchObject({ closed: [3], setSec: 210, hasNoClock: false, name: 'Grub' });
  expect(after?.stamps.name).toBe(mould.stamps.name);
  expect((after?.stamps.closed ?? '') > (mould.stamps.closed ?? '')).toBe(true);
});

test('what was changed at the desk while the session ran is not turned back at its end', async () => {
  const book = await openFresh();
  const facts = { ...plainMould({ rows: 2, cols: 2 }), name: 'Grub' };
  const mould = await addHead(book, 'moulds', facts, evening);
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
  const sessionId = await startPouring(book, beginning, evening);
  await logEntry(
    book,
    sessionId,
    { kind: 'cavity-closed', mouldId: mould.id, cavity: 1, isClosed: true },
    evening + min,
  );
  await changeHead(book, 'moulds', mould.id, { setSec: 240 }, evening + 2 * min);
  await endSession(book, sessionId, evening + 9 * min);
  expect(await headOf(book, 'moulds', mould.id)).toMatchObject({ closed: [1], setSec: 240 });
});

test('what thermometer readings taught about a mould is there the next evening', async () => {
  const book = await openFresh();
  const facts = { ...plainMould({ rows: 2, cols: 2 }), name: 'Grub' };
  const mould = await addHead(book, 'moulds', facts, evening);
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
  const sessionId = await startPouring(book, beginning, evening);
  const fill = { ...filled(1, 1), shots: [{ ...shotOf(1), mouldId: mould.id }] } as never;
  await logEntry(book, sessionId, fill, evening + min);
  const reading = { kind: 'mould-read', mouldId: mould.id, tempC: 60 } as const;
  await logEntry(book, sessionId, reading, evening + 4 * min);
  await endSession(book, sessionId, evening + 9 * min);
  const learnt = (await headOf(book, 'moulds', mould.id))?.heat;
  expect(learnt?.tauSec).toBeGreaterThan(0);
  // Far hotter than was thought: more of the heat stays in the mould than the 0.9 taken at first.
  expect(learnt?.uptake).toBeGreaterThan(0.9);
});

test('a line of a sealed session can be put right for ever, and its digest follows', async () => {
  const book = await openFresh();
  const sessionId = await poured(book);
  await endSession(book, sessionId, evening + 60 * min);
  const entries = await entriesOf(book, sessionId);
  const log = entries.find((entry) => entry.said.kind === 'opened');
  await putRight(
    book,
    sessionId,
    {
      target: log?.id as never,
      says: {
        kind: 'opened',
        shots: [{ shotId: id('shot', 1), results: ['good', 'good', 'good', 'good'] }],
      },
      happenedAt: log?.at ?? 0,
    },
    evening + 300 * 86_400_000,
  );
  const [columns] = await allColumns(book);
  expect([...(columns?.cells ?? [])].filter((code) => code === 0)).toHaveLength(4 + 3 + 3);
  expect(columns).toEqual(columnsOf(sessionId, await entriesOf(book, sessionId)));
  const all = await entriesOf(book, sessionId);
  expect(all).toHaveLength(entries.length + 1);
  expect(all).toEqual(expect.arrayContaining(entries));
});

test('moving the start of a sealed session leaves one digest, not two', async () => {
  const book = await openFresh();
  const sessionId = await poured(book);
  await endSession(book, sessionId, evening + 60 * min);
  const begin = (await entriesOf(book, sessionId))[0];
  await putRight(
    book,
    sessionId,
    { target: begin?.id as never, says: opening[0] as never, happenedAt: evening - 30 * min },
    evening + 61 * min,
  );
  expect((await allColumns(book)).map((columns) => columns.startedAt)).toEqual([
    evening - 30 * min,
  ]);
  await takeBack(
    book,
    sessionId,
    (await entriesOf(book, sessionId)).at(-1)?.id as never,
    evening + 62 * min,
  );
  expect((await allColumns(book)).map((columns) => columns.startedAt)).toEqual([evening]);
});

test('a session that is carried on runs again with all it had', async () => {
  const book = await openFresh();
  const sessionId = await poured(book);
  await endSession(book, sessionId, evening + 60 * min);
  await reopenSession(book, sessionId, evening + 70 * min);
  const running = await runningEntries(book);
  expect(tableOf(running ?? [])).toMatchObject({ endedAt: null, rounds: 3 });
  expect(await allColumns(book)).toEqual([]);
  await endSession(book, sessionId, evening + 80 * min);
  expect((await sealedSessions(book)).map(({ endedAt }) => endedAt)).toEqual([evening + 80 * min]);
});

test('a note is kept word for word, whatever it holds', async () => {
  const book = await openFresh();
  const sessionId = await poured(book, 1);
  const text = '<img src=x onerror="alert(1)"> \u202e 🪣 \u0000';
  await addToSession(book, sessionId, { kind: 'noted', text }, evening + 9 * min);
  expect(tableOf(await entriesOf(book, sessionId)).notes[0]?.text).toBe(text);
});

test.each([
  [{ kind: 'opened', shots: [] }],
  [{ kind: 'pot-read', potId: id('pot', 1), tempC: Number.NaN }],
  [{ kind: 'pot-read', potId: id('pot', 1), tempC: 1e308 }],
  [{ kind: 'pot-topped-up', potId: id('pot', 1), volumeMl: -5, meanHeats: 0, maxHeats: 0 }],
  [{ kind: 'filled', shots: [{ shotId: 'x' }], potIds: [], injectorId: null }],
  [{ kind: 'opened', shots: [{ shotId: id('shot', 1), results: ['excellent'] }] }],
  [{ kind: 'no-such-kind' }],
])('what may not exist is refused and nothing is stored: %j', async (said) => {
  const book = await openFresh();
  const sessionId = await begun(book);
  const before = await entriesOf(book, sessionId);
  await expect(logEntry(book, sessionId, said as never, evening + min)).rejects.toThrow();
  expect(await entriesOf(book, sessionId)).toEqual(before);
});

test('two windows that write into one session at once lose nothing and double nothing', async () => {
  const name = `sessions-${crypto.randomUUID()}`;
  const [a, b] = [await openBook(name), await openBook(name)];
  const sessionId = await begun(a);
  // Two windows share the device and press in the same milliseconds: equal stamps are certain.
  await Promise.all(
    Array.from({ length: 200 }, (_, index) =>
      logEntry(index % 2 ? a : b, sessionId, filled(1, index + 1), evening + (index >> 1)),
    ),
  );
  const shots = tableOf(await entriesOf(a, sessionId)).shots;
  expect(new Set(shots.map((shot) => shot.id)).size).toBe(200);
});

test('every write is announced to whoever listens', async () => {
  const book = await openFresh();
  const heard: string[] = [];
  const leave = subscribe((tables) => heard.push(...tables));
  const sessionId = await poured(book, 1);
  await endSession(book, sessionId, evening + 60 * min);
  leave();
  expect(new Set(heard)).toEqual(new Set(['entries', 'sealed', 'columns', 'drafts', 'moulds']));
});

test('a head that is taken off the list is gone from it and can come back', async () => {
  const book = await openFresh();
  const mould = await addHead(
    book,
    'moulds',
    { ...plainMould({ rows: 1, cols: 1 }), name: 'A' },
    evening,
  );
  await setDeleted(book, 'moulds', mould.id, evening + min, evening + min);
  expect(await headsOf(book, 'moulds')).toEqual([]);
  await setDeleted(book, 'moulds', mould.id, null, evening + 2 * min);
  expect((await headsOf(book, 'moulds')).map(({ name }) => name)).toEqual(['A']);
});

test('changing a field leaves unknown fields and the stamps of the others alone', async () => {
  const book = await openFresh();
  const mould = await addHead(
    book,
    'moulds',
    { ...plainMould({ rows: 1, cols: 1 }), name: 'A' },
    evening,
  );
  await book.db.put('moulds', { ...mould, fromANewerApp: { x: 1 } } as never);
  const after = await changeHead(book, 'moulds', mould.id, { name: 'B' }, evening + min);
  expect(after).toMatchObject({ name: 'B', fromANewerApp: { x: 1 } });
  expect(after.stamps.material).toBe(mould.stamps.material);
  expect((after.stamps.name ?? '') > (mould.stamps.name ?? '')).toBe(true);
});

test('last time names the moulds that still exist', async () => {
  const book = await openFresh();
  expect(await lastTime(book)).toBeNull();
  const mould = await addHead(
    book,
    'moulds',
    { ...plainMould({ rows: 2, cols: 2 }), name: 'A' },
    evening,
  );
  const sessionId = await startPouring(
    book,
    { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' },
    evening,
  );
  await endSession(book, sessionId, evening + min);
  expect((await lastTime(book))?.moulds.map(({ name }) => name)).toEqual(['A']);
  await setDeleted(book, 'moulds', mould.id, evening + 2 * min, evening + 2 * min);
  expect(await lastTime(book)).toBeNull();
});

function shotOf(number: number) {
  return { shotId: id('shot', number), volumeMl: 42, closed: [], setSec: 180 };
}
