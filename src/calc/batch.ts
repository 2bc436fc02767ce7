import type { Day } from '#calc/day-count.ts';
import { dayOf } from '#calc/days.ts';
import type { Standing } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import type { Instant } from '#model/schemas.ts';

/** What is written on a cup: month and date, then which pot of that day. `1203-2`. */
export function batchText(day: Day, number: number): string {
  return `${day.slice(5, 7)}${day.slice(8, 10)}-${number}`;
}

/**
 * The numbers of the next `count` pots of the day that `at` falls on, given what the sessions around
 * it say. A pot whose mixing was taken back leaves its number free.
 */
export function nextBatches(
  lines: readonly Standing[],
  { at: now, zone }: { at: Instant; zone: string },
  count: number,
): string[] {
  const day = dayOf(now, zone);
  const begins = batchText(day, 0).slice(0, -1);
  const pots = all(lines, 'pot-mixed')
    .filter(({ at }) => dayOf(at, zone) === day)
    .flatMap(({ said }) => said.pots);
  const own = pots.map(({ batch }) =>
    batch?.startsWith(begins) ? Number(batch.slice(begins.length)) : 0,
  );
  // A pot from before there were numbers counts too.
  const last = Math.max(0, pots.length, ...own.filter(Number.isInteger));
  return Array.from({ length: count }, (_, index) => batchText(day, last + 1 + index));
}
