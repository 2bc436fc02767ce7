import { openDB } from 'idb';
import { expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import { openBook } from '#store/book.ts';
import { keepUp } from '#store/keep-up.ts';
import { ladder } from '#store/ladder.ts';
import { fits } from '#store/schemas.ts';
import { runningEntries } from '#store/sessions.ts';
import { settingsOf } from '#store/settings.ts';
import frozen from '../fixtures/shop-v1.json';
import { aDrawer } from '../hands/drawer.ts';
import { morning } from '../hands/evening.ts';

/** Puts the shop of the first release into a database as that release made it. */
async function storedAsReleased(): Promise<string> {
  const name = `released-${crypto.randomUUID()}`;
  const db = await openDB(name, 1, { upgrade: (fresh) => ladder[0]?.stores?.(fresh as never) });
  for (const [table, records] of Object.entries(frozen.tables)) {
    for (const record of records) await db.put(table, record);
  }
  for (const { id, entries } of frozen.tables.sealed) {
    await db.put('columns', columnsOf(id as SessionId, entries as Entry[]));
  }
  db.close();
  return name;
}

test('the first release’s data opens today, letter by letter, and every record fits', async () => {
  const name = await storedAsReleased();
  const book = await openBook(name);
  expect(book.db.version).toBe(ladder.length);
  for (const [table, records] of Object.entries(frozen.tables)) {
    const stored = await book.db.getAll(table as 'moulds');
    const byText = (all: unknown[]) => all.map((one) => JSON.stringify(one)).sort();
    expect(byText(stored), table).toEqual(byText(records));
    if (table === 'meta') continue;
    for (const record of stored) expect(fits(table, record), `${table} ${record.id}`).toBe(true);
  }
  expect((await settingsOf(book)).heatLimit).toBe(6);
  expect(await runningEntries(book)).toHaveLength(5);
  expect(book.device).toBe('0000000a');
});

test('and the first look through it finds nothing wrong and copies it whole', async () => {
  const book = await openBook(await storedAsReleased());
  const drawer = aDrawer();
  const heard: unknown[] = [];
  const means = {
    openDrawer: async () => drawer,
    inTurn: async <T>(_name: string, act: () => Promise<T>) => await act(),
    now: () => morning,
  };
  const keeper = keepUp(book.db.name, means, (news) => heard.push(news));
  await keeper.check();
  keeper.stop();
  const none = { sessions: 0, moulds: 0, colourways: 0, injectors: 0, others: 0 };
  expect(heard).toMatchObject([
    {
      findings: { putBack: none, putRight: none, setAside: 0, damagedLines: 0 },
      held: { sessions: 2, moulds: 3 },
      copy: { sessions: 2, moulds: 3 },
    },
  ]);
});
