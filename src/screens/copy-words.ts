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
export function sinceWords(since: SinceCopy): string {
  const kinds: [number, string, string][] = [
    [since.sessions, 'session', 'sessions'],
    [since.putRight, 'session put right', 'sessions put right'],
    [since.photos, 'photo', 'photos'],
    [since.movements, 'stock line', 'stock lines'],
    [since.things, 'change of the shop', 'changes of the shop'],
  ];
  return listed(
    kinds.filter(([count]) => count > 0).map(([count, one, many]) => countWords(count, one, many)),
  );
}

/** The tables that it reads. */
export const sinceTables = [
  'columns',
  'moulds',
  'colourways',
  'materials',
  'mixes',
  'photos',
  'movements',
  'settings',
  'meta',
] as const;
