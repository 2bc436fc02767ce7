import { TZDate } from '@date-fns/tz';
import { addDays, startOfDay } from 'date-fns';
import type { Day } from '#calc/day-count.ts';
import type { Instant } from '#model/schemas.ts';

/** The calendar day that an instant falls on in a zone. */
export function dayOf(at: Instant, zone: string): Day {
  const there = new TZDate(at, zone);
  return `${there.getFullYear()}-${two(there.getMonth() + 1)}-${two(there.getDate())}`;
}

/** First instant of the day, and first instant of the next one, in a zone; a day can be 23 or 25 hours. */
export function boundsOf(day: Day, zone: string): { from: Instant; to: Instant } {
  const [year = 2000, month = 1, date = 1] = day.split('-').map(Number);
  const start = startOfDay(new TZDate(year, month - 1, date, 12, zone));
  return { from: start.getTime(), to: addDays(start, 1).getTime() };
}

/** The clock time of an instant in a zone, `21:12`. */
export function clockText(at: Instant, zone: string): string {
  const there = new TZDate(at, zone);
  return `${two(there.getHours())}:${two(there.getMinutes())}`;
}

/** The instant at which a zone's clocks show `day` and `21:12`; null when the text is no clock time. */
export function instantOf(day: Day, clock: string, zone: string): Instant | null {
  const time = /^([01]?\d|2[0-3])[:.]([0-5]\d)$/.exec(clock.trim());
  const [year, month, date] = day.split('-').map(Number);
  if (!time || !year || !month || !date) return null;
  return new TZDate(year, month - 1, date, Number(time[1]), Number(time[2]), zone).getTime();
}

function two(value: number): string {
  return String(value).padStart(2, '0');
}
