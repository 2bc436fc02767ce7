import { openDB } from 'idb';
import { expect, test } from 'vitest';
import { openDatabase } from '#store/db.ts';
import { climb, ladder } from '#store/ladder.ts';

const freshName = () => `ladder-${crypto.randomUUID()}`;
const mould = { id: 'm', name: 'Grub 50' };

/** A ladder one rung longer than today's, with the change that the next release might make. */
const taller = [...ladder, { records: { moulds: (old: object) => ({ ...old, shelf: 'top' }) } }];

test('every object store of the logbook is there after the first opening', async () => {
  const db = await openDatabase(freshName());
  expect([...db.objectStoreNames]).toEqual([
    'changes',
    'colourways',
    'columns',
    'drafts',
    'entries',
    'ideas',
    'injectors',
    'materials',
    'meta',
    'mixes',
    'moulds',
    'movements',
    'photo-bytes',
    'photos',
    'remarks',
    'sealed',
    'settings',
  ]);
  db.close();
});

test('a new rung rewrites what is stored and keeps fields it does not know', async () => {
  const name = freshName();
  const before = await openDatabase(name);
  await before.put('moulds', { ...mould, fromANewerApp: [1, 2] } as never);
  before.close();
  const after = await openDatabase(name, {}, taller as typeof ladder);
  expect(await after.get('moulds', 'm')).toEqual({
    ...mould,
    fromANewerApp: [1, 2],
    shelf: 'top',
  });
  after.close();
});

test('a rung that throws leaves version and records as they were', async () => {
  const name = freshName();
  const before = await openDatabase(name);
  await before.put('moulds', mould as never);
  before.close();
  const broken = [
    ...ladder,
    {
      stores: (db: IDBDatabase) => void db.createObjectStore('half-done'),
      records: {
        moulds: () => {
          throw new Error('this rung is rotten');
        },
      },
    },
  ];
  await expect(openDatabase(name, {}, broken)).rejects.toThrow('this rung is rotten');
  const raw = await openDB(name);
  expect(raw.version).toBe(ladder.length);
  expect([...raw.objectStoreNames]).not.toContain('half-done');
  expect(await raw.get('moulds', 'm')).toEqual(mould);
  raw.close();
});

test('a database of a newer app is refused by name and left alone', async () => {
  const name = freshName();
  const newer = await openDB(name, ladder.length + 5, {
    upgrade: (db) => void db.createObjectStore('moulds', { keyPath: 'id' }),
  });
  await newer.put('moulds', mould);
  newer.close();
  await expect(openDatabase(name)).rejects.toMatchObject({ name: 'VersionError' });
  const raw = await openDB(name);
  expect(await raw.get('moulds', 'm')).toEqual(mould);
  raw.close();
});

test('a window on an old version makes way for a newer one', async () => {
  const name = freshName();
  let hasMadeWay = false;
  await openDatabase(name, {
    onMadeWay: () => {
      hasMadeWay = true;
    },
  });
  const newer = await openDatabase(name, {}, taller as typeof ladder);
  expect(hasMadeWay).toBe(true);
  newer.close();
});

test('hostile records climb without an accident', () => {
  const hostile = [
    {},
    { id: null },
    JSON.parse('{"__proto__": {"x": 1}, "id": "m"}'),
    { id: 'm', name: '\ud800' },
    { id: 'm', nested: { deep: Array.from({ length: 1_000 }, () => ({})) } },
  ];
  for (const record of hostile) {
    expect(climb('moulds', record, 0)).toEqual(record);
    expect(climb('no-such-store', record, 0)).toEqual(record);
  }
  expect(({} as { x?: number }).x).toBeUndefined();
});
