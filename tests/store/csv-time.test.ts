import { expect, test } from 'vitest';
import { openBook } from '#store/book.ts';
import { broughtIn } from '#store/copy/bring.ts';
import { differenceOf } from '#store/copy/difference.ts';
import { type InKind, suggestedMatching } from '#store/csv/fields.ts';
import { takenIn } from '#store/csv/take-in.ts';
import { type ReadRow, rowsOf } from '#store/csv/text.ts';
import { aMould, morning } from '../hands/evening.ts';
import { dumpOf } from '../hands/full-shop.ts';

const lines = 6_000;
const tables: [InKind, string, (number: number) => string][] = [
  ['moulds', 'Name,Rows,Columns', (number) => `Craw ${number},2,3`],
  ['sessions', 'Date,Mould,Good', (number) => `20${10 + (number % 15)}-03-12,Craw 1,${number % 7}`],
];

test.each(tables)(
  'a table of %s that takes too long is given up, and nothing is written',
  async (...by) => {
    const [kind, heads, line] = by;
    const book = await openBook(`csv-time-${crypto.randomUUID()}`);
    await aMould(book, 'Craw 1', { rows: 2, cols: 3 });
    const before = await dumpOf(book);
    const text = [heads, ...Array.from({ length: lines }, (_, number) => line(number))].join('\n');
    const rows = rowsOf(text) as ReadRow[];
    expect(rows).toHaveLength(lines + 1);
    const matching = suggestedMatching(kind, rows[0]?.cells ?? []);
    const reading = { book, at: morning, zone: 'Europe/Berlin' };
    const timeIsUp = AbortSignal.timeout(0);
    await expect(
      takenIn(kind, rows, matching, { ...reading, signal: timeIsUp }),
    ).rejects.toMatchObject({
      why: 'too-long',
    });
    const few = rows.slice(0, 4);
    const { open } = await takenIn(kind, few, matching, reading);
    await expect(differenceOf(book, open, { signal: timeIsUp })).rejects.toMatchObject({
      why: 'too-long',
    });
    const about = { name: 'x.csv', at: morning, version: '1' };
    await expect(broughtIn(book, open, about, { signal: timeIsUp })).rejects.toMatchObject({
      why: 'too-long',
    });
    expect(await dumpOf(book)).toEqual(before);
  },
);
