import { expect, test } from 'vitest';
import type { Columns } from '#calc/columns.ts';
import { type Book, openBook } from '#store/book.ts';
import { columnsOfDay } from '#store/day-history.ts';
import { columnsBackFrom } from '#store/history.ts';
import { aMould, pourEvening, seven } from '../hands/evening.ts';

const hour = 3_600_000;
const openFresh = () => openBook(`history-${crypto.randomUUID()}`);
const starts = (columns: readonly Columns[]) => columns.map(({ startedAt }) => startedAt);

async function poured(book: Book, ...times: (readonly [at: number, zone: string])[]) {
  const mould = await aMould(book, 'Grub 50');
  for (const [at, zone] of times) {
    await pourEvening(book, { at, zone, fills: [{ mould, gave: 'gggg' }] });
  }
}

test('goes back from the newest, a page at a time, and ends', async () => {
  const book = await openFresh();
  const times = [0, 24, 48, 72, 96].map((hours) => seven + hours * hour);
  await poured(book, ...times.map((at) => [at, 'Europe/Berlin'] as const));
  const first = await columnsBackFrom(book, null, 2);
  expect(starts(first)).toEqual([times[4], times[3]]);
  const second = await columnsBackFrom(book, first.at(-1) ?? null, 2);
  expect(starts(second)).toEqual([times[2], times[1]]);
  const third = await columnsBackFrom(book, second.at(-1) ?? null, 2);
  expect(starts(third)).toEqual([times[0]]);
  expect(await columnsBackFrom(book, third.at(-1) ?? null, 2)).toEqual([]);
});

/** Kiritimati keeps UTC+14 and Pago Pago UTC-11 (IANA time zone database, from memory). */
test('a session belongs to the day of its own zone, wherever on earth that is', async () => {
  const book = await openFresh();
  const early = Date.UTC(2026, 10, 23, 10, 30);
  const late = Date.UTC(2026, 10, 25, 10, 30);
  const middle = Date.UTC(2026, 10, 24, 23, 30);
  await poured(
    book,
    [early, 'Pacific/Kiritimati'],
    [middle, 'Europe/Berlin'],
    [late, 'Pacific/Pago_Pago'],
  );
  expect(starts(await columnsOfDay(book, '2026-11-24'))).toEqual([early, late]);
  expect(starts(await columnsOfDay(book, '2026-11-25'))).toEqual([middle]);
  expect(await columnsOfDay(book, '2026-11-26')).toEqual([]);
});
