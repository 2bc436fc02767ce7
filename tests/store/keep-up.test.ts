import { deleteDB } from 'idb';
import { afterEach, expect, test } from 'vitest';
import { type Book, openBook } from '#store/book.ts';
import type { Db, Table } from '#store/db.ts';
import { fillDemo } from '#store/demo.ts';
import { keepDraft } from '#store/drafts.ts';
import { logEntry, undoEntry } from '#store/entries.ts';
import { addHead, changeHead, headOf, setDeleted } from '#store/heads.ts';
import { blankJournal, keysIn, openJournal, sumIn } from '#store/journal.ts';
import { type KeeperNews, keepUp } from '#store/keep-up.ts';
import { keptTables, rowsIn, sumOf } from '#store/keeping.ts';
import { announce } from '#store/notice.ts';
import {
  addToSession,
  beginSession,
  endSession,
  entriesOf,
  putRight,
  reopenSession,
  takeBack,
} from '#store/sessions.ts';
import { changeSettings } from '#store/settings.ts';
import { addPlainMould, startPouring } from '#store/start.ts';
import { aDrawer, type MemoryDrawer } from '../hands/drawer.ts';
import { aColourway, aMould, morning, pourEvening, seven } from '../hands/evening.ts';
import { aFrozenMould, id, potMixed } from '../hands/log.ts';

const sources = import.meta.glob('../../src/store/**/*.ts', {
  query: '?raw',
  import: 'default',
  eager: true,
});

const stops: (() => void)[] = [];
afterEach(() => {
  for (const stop of stops.splice(0)) stop();
});

async function aKeptBook(tell: (news: KeeperNews) => void = () => {}) {
  const name = `keep-up-${crypto.randomUUID()}`;
  const book = await openBook(name);
  const drawer = aDrawer();
  const means = {
    openDrawer: async () => drawer,
    inTurn: async <T>(_name: string, act: () => Promise<T>) => await act(),
    now: () => morning,
  };
  const keeper = keepUp(name, means, tell);
  stops.push(keeper.stop);
  await keeper.check();
  return { name, book, drawer, keeper };
}

/** What the tables hold and the second copy does not say in the same words, or the other way round. */
async function differences(db: Db, drawer: MemoryDrawer): Promise<string[]> {
  const journal = blankJournal();
  await openJournal(journal, drawer);
  const found: string[] = [];
  const seen = new Set<string>();
  for await (const row of rowsIn(db, keptTables)) {
    seen.add(`${row.table} ${row.key}`);
    const sum = sumIn(journal, row.table, row.key);
    if (sum !== sumOf(row)) found.push(`${row.table} ${row.key} ${sum ? 'differs' : 'is missing'}`);
  }
  for (const table of keptTables) {
    for (const key of keysIn(journal, table)) {
      if (!seen.has(`${table} ${key}`)) found.push(`${table} ${key} is left over`);
    }
  }
  return found;
}

/** Every function of the store that writes, in an order that makes sense. */
const acts: [name: string, act: (book: Book, kept: Record<string, string>) => Promise<unknown>][] =
  [
    ['addHead', (book) => aColourway(book, 'Peat brown', '#5b4029')],
    [
      'addPlainMould',
      async (book, kept) => {
        kept.mould = (await addPlainMould(book, { rows: 2, cols: 2 }, seven)).id;
      },
    ],
    [
      'changeHead',
      (book, kept) => changeHead(book, 'moulds', kept.mould as never, { name: 'Grub 50' }, seven),
    ],
    ['setDeleted', (book, kept) => setDeleted(book, 'moulds', kept.mould as never, seven, seven)],
    ['changeSettings', (book) => changeSettings(book, { palette: 'lamp' }, seven)],
    [
      'startPouring',
      async (book, kept) => {
        const mouldIds = [kept.mould as never];
        const beginning = { mouldIds, injectorId: null, colourwayId: null, zone: 'UTC' };
        kept.session = await startPouring(book, beginning, seven);
      },
    ],
    [
      'logEntry',
      async (book, kept) => {
        const noted = { kind: 'noted', text: 'Warm tonight' } as const;
        kept.entry = (await logEntry(book, kept.session as never, noted, seven + 1_000)).id;
      },
    ],
    [
      'undoEntry',
      (book, kept) => undoEntry(book, kept.session as never, kept.entry as never, seven),
    ],
    [
      'keepDraft',
      (book, kept) =>
        keepDraft(book, { sessionId: kept.session as never, marks: [], openShotId: null }),
    ],
    ['endSession', (book, kept) => endSession(book, kept.session as never, seven + 60_000)],
    [
      'addToSession',
      (book, kept) =>
        addToSession(book, kept.session as never, { kind: 'noted', text: 'Later' }, seven + 70_000),
    ],
    [
      'putRight',
      async (book, kept) => {
        const target = kept.entry as never;
        const says = { kind: 'noted', text: 'Put right' } as const;
        await putRight(
          book,
          kept.session as never,
          { target, says, happenedAt: seven },
          seven + 80_000,
        );
      },
    ],
    ['takeBack', (book, kept) => takeBack(book, kept.session as never, kept.entry as never, seven)],
    ['reopenSession', (book, kept) => reopenSession(book, kept.session as never, seven + 90_000)],
    [
      'beginSession',
      (book) =>
        beginSession(
          book,
          [
            { kind: 'session-begun', zone: 'UTC', ambientC: 20, pourC: 165 },
            { kind: 'lined-up', moulds: [aFrozenMould(1)], injector: null },
            potMixed(1),
          ],
          seven,
        ),
    ],
    [
      'materials, remarks and the stock journal',
      async (book) => {
        await addHead(
          book,
          'remarks',
          {
            kind: 'water',
            text: 'Two pike',
            colourwayId: null,
            mixId: null,
            mouldId: null,
            sessionId: null,
          },
          seven,
        );
        const movement = {
          id: id('movement', 1),
          materialId: id('material', 1),
          at: seven,
          writtenAt: seven,
          stamp: '019adfb3c000-0000-0000000a',
          device: '0000000a',
          says: { kind: 'checked' },
          note: '',
        };
        await book.db.put('movements', movement as never);
        announce('movements');
      },
    ],
  ];

test('every function that writes is followed, and the copy says what the tables say', async () => {
  const { book, drawer, keeper } = await aKeptBook();
  const kept: Record<string, string> = {};
  for (const [name, act] of acts) {
    const before = drawer.files.get('1.log')?.length;
    await act(book, kept);
    // Asked last, answered last: what was announced before is written by then.
    await keeper.look();
    expect(await differences(book.db, drawer), name).toEqual([]);
    if (name !== 'keepDraft') expect(drawer.files.get('1.log')?.length, name).not.toBe(before);
  }
});

test('no file of the store writes without announcing', () => {
  const silent = Object.entries(sources)
    .filter(([, text]) => /, 'readwrite'[,)]|\bdb\.(put|add|delete)\(/.test(String(text)))
    // A database of its own is no part of the logbook.
    .filter(([, text]) => !/\bannounce\(|\bopenDB</.test(String(text)))
    .map(([path]) => path.replace(/^.*src/, ''));
  // What `book.ts` writes is the device's own name, which the second copy does not hold;
  // what `held-pots.ts` and `told-versions.ts` keep can be worked out again.
  expect(silent).toEqual(['/store/book.ts', '/store/held-pots.ts', '/store/told-versions.ts']);
  expect(Object.keys(sources).length).toBeGreaterThan(20);
});

test('a whole shop that was filled in one go is in the copy', async () => {
  const { book, drawer, keeper } = await aKeptBook();
  const bytes = await (await fetch('/demo-shop.bin')).arrayBuffer();
  await fillDemo(book, bytes, { at: morning, zone: 'Europe/Berlin' });
  await keeper.look();
  expect(await differences(book.db, drawer)).toEqual([]);
});

test('what was taken out by hand after a write is taken out of the copy too', async () => {
  const { book, drawer, keeper } = await aKeptBook();
  const mould = await aMould(book, 'Grub 50');
  const sessionId = await pourEvening(book, { fills: [{ mould, gave: 'gggg' }] });
  await keeper.look();
  // As the undo of a file that was brought in does it.
  const tables: Table[] = ['moulds', 'sealed', 'columns', 'meta'];
  const tx = book.db.transaction(tables, 'readwrite');
  await tx.objectStore('moulds').delete?.(mould.id);
  await tx.objectStore('sealed').delete?.(sessionId);
  await tx.objectStore('columns').clear?.();
  await tx.done;
  announce(...tables);
  await keeper.look();
  expect(await differences(book.db, drawer)).toEqual([]);
  await keeper.check();
  expect(await headOf(book, 'moulds', mould.id)).toBeUndefined();
  expect(await entriesOf(book, sessionId)).toEqual([]);
});

test('what was written while nobody kept up is caught up with at the next start', async () => {
  const name = `keep-up-${crypto.randomUUID()}`;
  const book = await openBook(name);
  const mould = await aMould(book, 'Grub 50');
  for (const day of [2, 1]) {
    await pourEvening(book, { fills: [{ mould, gave: 'gggg' }], at: seven - day * 86_400_000 });
  }
  const drawer = aDrawer();
  const inTurn = async <T>(_name: string, act: () => Promise<T>) => await act();
  const means = { openDrawer: async () => drawer, inTurn, now: () => morning };
  await keepUp(name, means, () => {}).check();
  expect(await differences(book.db, drawer)).toEqual([]);
});

test('a database that is found empty after a fault was lost: the copy is no wiser than before and gives back', async () => {
  const { name, book, drawer, keeper } = await aKeptBook();
  const mould = await aMould(book, 'Grub 50');
  const sessionId = await pourEvening(book, { fills: [{ mould, gave: 'gggg' }] });
  await keeper.look();
  // The browser breaks a read off, as it does when it finds the database damaged, and opens an empty one next.
  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = () => {
    throw new DOMException('Broken off.', 'UnknownError');
  };
  announce('moulds');
  await keeper.look();
  IDBDatabase.prototype.transaction = transaction;
  book.db.close();
  await deleteDB(name);
  const again = await openBook(name);
  await changeSettings(again, { palette: 'lamp' }, morning);
  announce('moulds', 'sealed', 'meta');
  await keeper.look();
  expect((await headOf(again, 'moulds', mould.id))?.name).toBe('Grub 50');
  expect(await entriesOf(again, sessionId)).not.toEqual([]);
  expect(await differences(again.db, drawer)).toEqual([]);
});

test('what could not be written to the copy is written with the next press', async () => {
  const { book, drawer, keeper } = await aKeptBook();
  const { open } = drawer;
  drawer.open = async () => {
    throw new DOMException('Another window has it.', 'NoModificationAllowedError');
  };
  await aMould(book, 'Grub 50');
  await keeper.look().catch(() => {});
  drawer.open = open;
  await aColourway(book, 'Peat', '#5b4029');
  await keeper.look();
  expect(await differences(book.db, drawer)).toEqual([]);
});

test('where a look at the start finds no room for the copy, all of it is owed', async () => {
  const { name, book, drawer, keeper } = await aKeptBook();
  keeper.stop();
  const mould = await aMould(book, 'Grub 50');
  await aColourway(book, 'Peat', '#5b4029');
  drawer.roomBytes = 0;
  const inTurn = async <T>(_name: string, act: () => Promise<T>) => await act();
  const means = { openDrawer: async () => drawer, inTurn, now: () => morning };
  const next = keepUp(name, means, () => {});
  stops.push(next.stop);
  await next.check();
  expect(await differences(book.db, drawer)).toHaveLength(2);
  drawer.roomBytes = 10 * 1024 * 1024;
  await changeHead(book, 'moulds', mould.id, { name: 'Grub 60' }, morning);
  await next.look();
  expect(await differences(book.db, drawer)).toEqual([]);
});

test('a copy that has no room to be written anew goes on as it is', async () => {
  const news: KeeperNews[] = [];
  const { book, drawer, keeper } = await aKeptBook((one) => news.push(one));
  const mould = await aMould(book, 'Grub 50');
  for (let number = 1; number <= 10; number += 1) await aMould(book, `Shad ${number}`);
  // As many lines of one mould as make the file worth writing anew.
  await keeper.look();
  const file = drawer.files.get('1.log') ?? new Uint8Array(0);
  const lineOf = [...new TextDecoder().decode(file).split('\n')].find((line) =>
    line.includes('Grub'),
  );
  const many = new TextEncoder().encode(`${lineOf}\n`.repeat(2_000));
  drawer.files.set('1.log', new Uint8Array([...file, ...many]));
  // Room for some lines, not for a file.
  drawer.roomBytes = 4_000;
  for (const turn of [1, 2, 3]) {
    await changeHead(book, 'moulds', mould.id, { name: `Grub ${turn}` }, morning + turn);
    await keeper.look();
    expect(await differences(book.db, drawer), `turn ${turn}`).toEqual([]);
  }
  expect([...drawer.files.keys()].sort()).toEqual(['1.log', 'reserve']);
  expect(news.filter((one) => one.news === 'failed')).toEqual([]);
});

test('on a device so full that no file can be begun the reserve is freed', async () => {
  const { drawer, keeper } = await aKeptBook();
  const { open } = drawer;
  drawer.open = async (name) => {
    if (!drawer.files.has(name)) throw new DOMException('Full.', 'QuotaExceededError');
    return await open(name);
  };
  expect(await keeper.makeRoomIfFull()).toBe(true);
  expect(drawer.files.has('reserve')).toBe(false);
});

test('a full device frees the reserve for the log; the copy waits and then catches up', async () => {
  const { book, drawer, keeper } = await aKeptBook();
  expect(drawer.files.get('reserve')?.length).toBe(2 * 1024 * 1024);
  drawer.roomBytes = 0;
  await aMould(book, 'Grub 50');
  await keeper.look();
  expect(await keeper.makeRoom()).toBe(true);
  expect(drawer.files.has('reserve')).toBe(false);
  expect(await keeper.makeRoom()).toBe(false);
  await keeper.look();
  expect(await differences(book.db, drawer)).toHaveLength(1);
  drawer.roomBytes = 10 * 1024 * 1024;
  await aMould(book, 'Shad 7');
  await keeper.look();
  expect(await differences(book.db, drawer)).toEqual([]);
  expect(drawer.files.has('reserve')).toBe(true);
});

test('a device that was full is looked at again when that is asked, and the copy catches up with everything', async () => {
  const { book, drawer, keeper } = await aKeptBook();
  expect(await keeper.hasRoom()).toBe(true);
  drawer.roomBytes = 0;
  expect(await keeper.makeRoom()).toBe(true);
  drawer.roomBytes = 1_000;
  await aMould(book, 'Grub 50');
  await aColourway(book, 'Peat', '#5b4029');
  expect(await keeper.hasRoom()).toBe(false);
  expect(await differences(book.db, drawer)).toHaveLength(2);
  drawer.roomBytes = 10 * 1024 * 1024;
  expect(await keeper.hasRoom()).toBe(true);
  expect(drawer.files.has('reserve')).toBe(true);
  expect(await differences(book.db, drawer)).toEqual([]);
});

test('the reserve stays where it is while there is room: a database breaks for other reasons too', async () => {
  const { drawer, keeper } = await aKeptBook();
  expect(await keeper.makeRoomIfFull()).toBe(false);
  expect([...drawer.files.keys()].sort()).toEqual(['1.log', 'reserve']);
  drawer.roomBytes = 100_000;
  expect(await keeper.makeRoomIfFull()).toBe(true);
  expect([...drawer.files.keys()]).toEqual(['1.log']);
});

test('while a session runs on a full device nothing fills up the room that its shots need', async () => {
  const { book, drawer, keeper } = await aKeptBook();
  const mould = await aMould(book, 'Grub 50');
  const lined = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone: 'UTC' };
  const sessionId = await startPouring(book, lined, seven);
  await keeper.look();
  drawer.roomBytes = 0;
  expect(await keeper.makeRoom()).toBe(true);
  drawer.roomBytes = 10 * 1024 * 1024;
  await aMould(book, 'Shad 7');
  await keeper.look();
  expect(drawer.files.has('reserve')).toBe(false);
  await endSession(book, sessionId, seven + 60_000);
  await keeper.look();
  expect(drawer.files.has('reserve')).toBe(true);
  expect(await differences(book.db, drawer)).toEqual([]);
});
