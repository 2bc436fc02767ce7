import { openDB } from 'idb';
import { expect, test } from 'vitest';
import { yieldsByMould } from '#calc/yields.ts';
import type { Said, SessionId } from '#model/entry.ts';
import { type Book, freshId, openBook } from '#store/book.ts';
import { logEntry } from '#store/entries.ts';
import { allColumns, columnsBetween, columnsInBatches } from '#store/history.ts';
import { addShots, rowsOf } from './shots.ts';
import { msOf, quantile, report, sideBySide } from './timing.ts';

// Speed as ratios within one run, printed beside the goal; what is asserted is only that the two
// ways that are compared did the same work.

const said: Said = { kind: 'noted', text: 'A note as long as a shot is.' };

async function naive(rows: ReturnType<typeof rowsOf>) {
  const db = await openDB(`bench-${crypto.randomUUID()}`, 1, {
    upgrade(fresh) {
      const shots = fresh.createObjectStore('shots', { keyPath: 'id' });
      shots.createIndex('at', 'at');
      fresh.createObjectStore('bare', { autoIncrement: true });
    },
  });
  for (let from = 0; from < rows.length; from += 5_000) {
    const tx = db.transaction('shots', 'readwrite');
    for (const row of rows.slice(from, from + 5_000)) void tx.store.put(row);
    await tx.done;
  }
  return db;
}

for (const shots of [0, 100_000]) {
  test(`a press to disk with ${shots} shots stored`, async () => {
    const book = await openBook(`bench-${crypto.randomUUID()}`);
    await addShots(book, shots);
    const bare = await naive([]);
    const sessionId = freshId<SessionId>(Date.now());
    const entry = await logEntry(book, sessionId, said, Date.now());
    const raw = async () => {
      const tx = bare.transaction('bare', 'readwrite', { durability: 'strict' });
      void tx.store.put(entry);
      await tx.done;
    };
    const press = () => logEntry(book, sessionId, said, Date.now());
    await sideBySide(20, press, raw);
    const { ours, other } = await sideBySide(200, press, raw);
    const ratio = (share: number) => quantile(ours, share) / quantile(other, share);
    report(`press to disk, ${shots} stored, median, to a raw strict put`, ratio(0.5), '<= 1.2');
    report(`press to disk, ${shots} stored, p95, to a raw strict put`, ratio(0.95), '<= 1.2');
    expect(await book.db.count('entries')).toBe(221);
    expect(await bare.count('bare')).toBe(220);
  });
}

test('100,000 shots: a day, and the whole history, against one record a shot', async () => {
  const book = await openBook(`bench-${crypto.randomUUID()}`);
  const sessions = await addShots(book, 100_000);
  const rows = rowsOf(sessions);
  const db = await naive(rows);
  const day = sessions[1_000]?.startedAt ?? 0;

  const oneDay = await sideBySide(
    20,
    () => columnsBetween(book, day, day + 86_400_000),
    () => db.getAllFromIndex('shots', 'at', IDBKeyRange.bound(day, day + 86_400_000)),
  );
  report('one day, to rows by index', ratioOf(oneDay), '<= 0.5');

  const counted = { packed: 0, naive: 0 };
  const whole = await sideBySide(
    5,
    async () => {
      const yields = yieldsByMould(await allColumns(book));
      counted.packed = yields.reduce((sum, { tally }) => sum + tally.good, 0);
    },
    async () => {
      counted.naive = 0;
      for (const row of await db.getAll('shots')) {
        for (const result of row.results) if (result === 'good') counted.naive += 1;
      }
    },
  );
  report('whole history with its yields, to one record a shot', ratioOf(whole), '<= 0.3');
  expect(counted.packed).toBe(counted.naive);
  expect(counted.packed).toBeGreaterThan(900_000);

  const small = await openBook(`bench-${crypto.randomUUID()}`);
  await addShots(small, 10_000);
  const growth = await sideBySide(
    5,
    async () => yieldsByMould(await allColumns(book)),
    async () => yieldsByMould(await allColumns(small)),
  );
  report('whole history, 100,000 shots to 10,000', ratioOf(growth), 'about 10, no worse');

  report('longest step of the batched read, to the whole', await longestStep(book), '<= 0.2');
});

/** The longest that the page cannot draw while the history is read in batches, as a share of all. */
async function longestStep(book: Book): Promise<number> {
  let longest = 0;
  const all = await msOf(async () => {
    for await (const batch of columnsInBatches(book)) {
      longest = Math.max(longest, await msOf(() => yieldsByMould(batch)));
    }
  });
  return longest / all;
}

function ratioOf({ ours, other }: { ours: number[]; other: number[] }): number {
  return quantile(ours, 0.5) / quantile(other, 0.5);
}
