import { daysBefore } from '#calc/day-count.ts';
import { dayOf } from '#calc/days.ts';
import { countWords } from '#screens/words.ts';
import type { SinceCopy } from '#store/copy/since.ts';

/** `3 sessions, 2 moulds and 1 colour`. */
export function listed(parts: readonly string[]): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

/** How old the last copy is, in whole days of the person's calendar. */
export function ageWords(at: number, now: number, zone: string): string {
  const days = daysBefore(dayOf(at, zone), dayOf(now, zone));
  if (days <= 0) return 'today';
  return days === 1 ? 'yesterday' : `${days} days ago`;
}

/** What is only on this phone; empty: nothing is. */
export function sinceWords({ sessions, things }: SinceCopy): string {
  const parts = [
    ...(sessions > 0 ? [countWords(sessions, 'session')] : []),
    ...(things > 0 ? [countWords(things, 'change of the shop', 'changes of the shop')] : []),
  ];
  return listed(parts);
}
