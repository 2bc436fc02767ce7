import { type Day, daysBefore } from '#calc/day-count.ts';
import { fFromC } from '#calc/units.ts';
import type { Defect } from '#model/defect.ts';

const weekdays = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
const longWeekdays = 'Sunday Monday Tuesday Wednesday Thursday Friday Saturday'.split(' ');
const months = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** The word for a defect, as on its key. */
export const defectWords: Record<Defect, string> = {
  short: 'Short',
  dent: 'Dent',
  bubble: 'Bubble',
  tear: 'Tear',
  flash: 'Flash',
  streak: 'Streak',
  'tail-missed': 'Tail missed',
  'colour-off': 'Colour off',
  other: 'Other',
  'came-apart': 'Came apart',
};

/** `Tue 24 Nov`, with the year when it is not this one. */
export function dateWords(day: Day, today: Day): string {
  const [year = 2000, month = 1, date = 1] = day.split('-').map(Number);
  const weekday = weekdays[new Date(Date.UTC(year, month - 1, date)).getUTCDay()];
  const isThisYear = today.startsWith(`${year}-`);
  return `${weekday} ${date} ${months[month - 1]}${isThisYear ? '' : ` ${year}`}`;
}

/** `Nov 2026` for `2026-11`. */
export function monthWords(month: string): string {
  const [year, number] = month.split('-').map(Number);
  return `${months[(number ?? 1) - 1]} ${year}`;
}

/** `Tuesday`. */
export function weekdayWords(day: Day): string {
  const [year = 2000, month = 1, date = 1] = day.split('-').map(Number);
  return longWeekdays[new Date(Date.UTC(year, month - 1, date)).getUTCDay()] ?? '';
}

/** `Today`, `Yesterday, Tue 24 Nov`, or the date alone. */
export function dayWords(day: Day, today: Day): string {
  const before = daysBefore(day, today);
  if (before === 0) return `Today, ${dateWords(day, today)}`;
  return before === 1 ? `Yesterday, ${dateWords(day, today)}` : dateWords(day, today);
}

/** A span as `2 h 10` or `41 min`. */
export function spanWords(ms: number): string {
  const minutes = Math.max(0, Math.round(ms / 60_000));
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')}`;
}

/** Seconds as `3:05`. */
export function clockWords(sec: number): string {
  const whole = Math.max(0, Math.round(sec));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** A temperature in the person's unit, `38 °C`. */
export function tempWords(tempC: number, unit: 'C' | 'F'): string {
  return `${Math.round(unit === 'C' ? tempC : fFromC(tempC))} °${unit}`;
}

/** `210 g`. */
export function gramWords(massG: number): string {
  return `${Math.round(massG)} g`;
}

/** `1 shot`, `2 shots`. */
export function countWords(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** `Grub 50`, `Grub 50 + Shad 7`. */
export function joined(names: readonly string[]): string {
  return names.join(' + ');
}
