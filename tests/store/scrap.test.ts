import { expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { scrapOf } from '#calc/scrap.ts';
import { checkOf } from '#calc/scrap-check.ts';
import { tableOf } from '#calc/table.ts';
import type { SessionId } from '#model/entry.ts';
import { type Book, openBook } from '#store/book.ts';
import { broughtIn } from '#store/copy/bring.ts';
import { openedFile } from '#store/copy/file.ts';
import { takenCopy } from '#store/copy/take.ts';
import { outText } from '#store/csv/out.ts';
import { rowsOf } from '#store/csv/text.ts';
import { newestColumns } from '#store/history.ts';
import { addToSession, entriesOf, putRight, takeBack } from '#store/sessions.ts';
import { aMould, morning, pourEvening } from '../hands/evening.ts';

const openFresh = () => openBook(`scrap-${crypto.randomUUID()}`);
const min = 60_000;

/** One evening of four shots, one bad bait of 8 mL in each: 33.6 g at 1.05 g/mL. */
async function poured(book: Book): Promise<SessionId> {
  const mould = await aMould(book, 'Grub 50', { rows: 2, cols: 2 }, { partMl: 8 });
  const fills = ['gsgg', 'gsgg', 'ggsg', 'gggs'].map((gave) => ({ mould, gave }));
  return await pourEvening(book, { fills });
}

const scrapIn = async (book: Book, id: SessionId) => scrapOf(tableOf(await entriesOf(book, id)));
const weigh = (book: Book, id: SessionId, massG: number, at = morning) =>
  addToSession(book, id, { kind: 'scrap-weighed', massG }, at);

async function lastEntry(book: Book, id: SessionId) {
  const last = (await entriesOf(book, id)).at(-1);
  if (!last) throw new Error('The session is empty.');
  return last;
}

/** Carries the whole of one logbook into another by the copy file. */
async function carry(from: Book, into: Book): Promise<void> {
  const wish = { withPhotos: true, words: null, version: '1' };
  const { file } = await takenCopy(from, wish, morning);
  const about = { name: 'shop.warmshot', at: morning, version: '1' };
  await broughtIn(into, await openedFile(file, null), about);
}

test('a weight given the morning after is kept with the session, put right and taken back', async () => {
  const book = await openFresh();
  const id = await poured(book);
  const endedAt = (await newestColumns(book))?.endedAt;
  await weigh(book, id, 60);
  expect(await scrapIn(book, id)).toMatchObject({ bad: 4, weighedG: 60 });
  expect((await newestColumns(book))?.scrap?.weighedG).toBe(60);
  expect((await newestColumns(book))?.endedAt, 'the session is no longer for it').toBe(endedAt);
  const line = await lastEntry(book, id);
  const says = { kind: 'scrap-weighed', massG: 34 } as const;
  await putRight(book, id, { target: line.id, says, happenedAt: line.at }, morning + min);
  expect(checkOf(await scrapIn(book, id))).toEqual({ kind: 'fits' });
  await takeBack(book, id, line.id, morning + 2 * min);
  expect((await scrapIn(book, id)).weighedG).toBeNull();
  expect((await newestColumns(book))?.scrap).toBeUndefined();
  await takeBack(book, id, (await lastEntry(book, id)).id, morning + 3 * min);
  expect((await scrapIn(book, id)).weighedG).toBe(34);
  expect(await newestColumns(book)).toEqual(columnsOf(id, await entriesOf(book, id)));
});

test('two phones that weighed the same session end with the same, the newest, weight', async () => {
  const [one, other] = [await openFresh(), await openFresh()];
  const id = await poured(one);
  await carry(one, other);
  await weigh(one, id, 40, morning);
  await weigh(other, id, 70, morning + min);
  await carry(one, other);
  await carry(other, one);
  for (const book of [one, other]) {
    expect((await scrapIn(book, id)).weighedG).toBe(70);
    expect((await newestColumns(book))?.scrap?.weighedG).toBe(70);
  }
  expect(await entriesOf(one, id)).toEqual(await entriesOf(other, id));
});

test('the weight stands in the table of sessions, and an empty cell where none is', async () => {
  const book = await openFresh();
  const id = await poured(book);
  const cells = async () => {
    const text = await outText(book, 'sessions', { separator: ';', decimal: ',' });
    const rows = rowsOf(text);
    if (!Array.isArray(rows)) throw new Error(rows);
    const at = rows[0]?.cells.indexOf('Bad baits weighed, g') ?? -1;
    expect(at).toBeGreaterThan(0);
    return rows[1]?.cells[at];
  };
  expect(await cells()).toBe('');
  await weigh(book, id, 62.5);
  expect(await cells()).toBe('62,5');
});

test.each([-1, 100_001, Number.NaN])(
  'a weight of %s is refused, nothing is kept',
  async (massG) => {
    const book = await openFresh();
    const id = await poured(book);
    await expect(weigh(book, id, massG)).rejects.toThrow();
    expect((await scrapIn(book, id)).weighedG).toBeNull();
  },
);
