import { deleteDB } from 'idb';
import { expect, test } from 'vitest';
import { coldLineOf } from '#calc/cold-line.ts';
import { type Columns, columnsOf } from '#calc/columns.ts';
import { standingOf } from '#calc/log.ts';
import { stockOf } from '#calc/stock-level.ts';
import { type SessionUse, usesOf } from '#calc/used.ts';
import { yieldsByMould } from '#calc/yields.ts';
import type { Entry } from '#model/entry.ts';
import { type Book, openBook } from '#store/book.ts';
import { broughtIn } from '#store/copy/bring.ts';
import { openedFile } from '#store/copy/file.ts';
import { takenCopy } from '#store/copy/take.ts';
import { headsOf } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { endSession, putRight, runningEntries, takeBack } from '#store/sessions.ts';
import { shelfOf } from '#store/stock.ts';
import { aMould, morning, pourEvening, results } from '../../hands/evening.ts';
import { figure } from '../../hands/figure.ts';
import { fillShop, stockLine } from '../../hands/full-shop.ts';
import { aWindow } from '../../hands/second-copy.ts';

const openFresh = () => openBook(`derived-${crypto.randomUUID()}`);
const byStart = (a: Columns, b: Columns) =>
  a.startedAt - b.startedAt || (a.sessionId < b.sessionId ? -1 : 1);

async function bring(from: Book, to: Book): Promise<void> {
  const wish = { withPhotos: true, words: null, version: '1' };
  const { file } = await takenCopy(from, wish, morning);
  await broughtIn(to, await openedFile(file, null), { name: 'x', at: morning, version: '1' });
}

/** Every number that is worked out of these digests and uses. */
async function numbersOf(book: Book, columns: readonly Columns[], uses: readonly SessionUse[]) {
  const [moulds, materials] = await Promise.all([
    headsOf(book, 'moulds'),
    headsOf(book, 'materials'),
  ]);
  const movements = await book.db.getAll('movements');
  return {
    columns: [...columns].sort(byStart),
    yields: (['all', 'warm', 'cold'] as const).map((which) => yieldsByMould(columns, which)),
    coldLines: moulds.map(({ id }) => coldLineOf(columns, id)),
    levels: materials.map((material) => stockOf(material, movements, uses).level),
  };
}

/** The numbers as the app shows them: off what is packed beside the log. */
async function shown(book: Book) {
  return await numbersOf(book, await allColumns(book), (await shelfOf(book)).uses);
}

/** The same numbers off the lines of the log alone. */
async function rebuilt(book: Book) {
  const sealed = await book.db.getAll('sealed');
  const sessions: Entry[][] = [...sealed.map(({ entries }) => entries)];
  const running = await runningEntries(book);
  const uses = [...sessions, ...(running ? [running] : [])].flatMap((entries) =>
    usesOf(standingOf(entries)).map((use) => ({
      ...use,
      sessionId: entries[0]?.sessionId as SessionUse['sessionId'],
    })),
  );
  const columns = sealed.map(({ id, entries }) => columnsOf(id, entries));
  return await numbersOf(book, columns.sort(byStart), uses);
}

/** One phone goes on alone: a shot put right, one taken back, stock counted, an evening of its own. */
async function goOn(book: Book, number: number): Promise<void> {
  const at = morning + number * 3_600_000;
  const [first, second] = await book.db.getAll('sealed');
  const [material] = await headsOf(book, 'materials');
  const opened = first?.entries.find(({ said }) => said.kind === 'opened');
  const filled = second?.entries.findLast(({ said }) => said.kind === 'filled');
  if (opened?.said.kind !== 'opened' || !first || !second || !filled || !material) {
    throw new Error('The shop did not come over.');
  }
  const shots = opened.said.shots.map((shot) => ({ ...shot, results: results('sbgg') }));
  if (number === 1) {
    const says = { kind: 'opened', shots } as const;
    await putRight(book, first.id, { target: opened.id, says, happenedAt: opened.at }, at);
    await stockLine(book, material.id, { kind: 'counted', level: 2_000 }, at);
  } else {
    await takeBack(book, second.id, filled.id, at);
    const sessionId = (await runningEntries(book))?.[0]?.sessionId;
    if (sessionId) await endSession(book, sessionId, at + 1_000);
  }
  const mould = await aMould(book, `Own ${number}`);
  const [colourway] = await headsOf(book, 'colourways');
  const fills = [{ mould, gave: 'gsgg' }];
  await pourEvening(book, { fills, at: at + 60_000, ...(colourway ? { colourway } : {}) });
}

test('after a restore, a merge and a repair every number is that of a rebuild from the log', async () => {
  const first = await openFresh();
  await fillShop(first);
  const other = await openFresh();
  await bring(first, other);
  const restored = { shown: await shown(other), rebuilt: await rebuilt(other) };
  await goOn(first, 1);
  await goOn(other, 2);
  await bring(other, first);
  await bring(first, other);
  const merged = { shown: await shown(first), rebuilt: await rebuilt(first) };
  const mergedThere = { shown: await shown(other), rebuilt: merged.rebuilt };

  const name = `derived-${crypto.randomUUID()}`;
  const before = await aWindow(name);
  await before.safety.start();
  await bring(first, before.book);
  const lines = (await rebuilt(before.book)).columns.length;
  await before.safety.check();
  before.close();
  await deleteDB(name);
  const after = await aWindow(name);
  await after.safety.start();
  const repaired = { shown: await shown(after.book), rebuilt: merged.rebuilt };
  after.close();

  const all = { restored, merged, mergedThere, repaired };
  const equal = Object.values(all).filter(
    (one) => JSON.stringify(one.shown) === JSON.stringify(one.rebuilt),
  ).length;
  figure({
    drill: 'Numbers after a restore, a merge and a repair',
    required: 'yields, cold and warm, cold lines, levels, sums: 4/4 as a rebuild from the log',
    reached: `${equal}/4, ${merged.shown.columns.length} sessions`,
    isMet: equal === 4,
  });
  for (const [which, one] of Object.entries(all)) expect(one.shown, which).toEqual(one.rebuilt);
  // The numbers say something: what was put right, taken back and counted is in them.
  expect(lines).toBe(merged.shown.columns.length);
  expect(merged.shown.columns).toHaveLength(5);
  expect(merged.shown.yields).not.toEqual(restored.shown.yields);
  expect(merged.shown.levels).not.toEqual(restored.shown.levels);
});
