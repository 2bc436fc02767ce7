import { countOf } from '#calc/tonight.ts';
import type { Result } from '#model/entry.ts';

/** Counts of a shot as words: `8 good, 2 bad`. */
export function saveWords(results: readonly Result[]): string {
  const { good, bad, notChecked } = countOf(results);
  const parts = [`${good} good`];
  if (bad > 0) parts.push(`${bad} bad`);
  if (notChecked > 0) parts.push(`${notChecked} not checked`);
  return parts.join(', ');
}
