import { type Count, countOf } from '#calc/tonight.ts';
import type { Result } from '#model/entry.ts';
import { defectWords } from '#screens/words.ts';

/** What the cavities of one shot gave: `All good`, `7 good, 1 bad: 6 short`, `2 good, 2 not checked`. */
export function resultWords(results: readonly Result[]): string {
  const count = countOf(results);
  const { good, bad, notChecked } = count;
  if (good + bad + notChecked === 0) return 'All closed off';
  if (bad + notChecked === 0) return 'All good';
  if (good + bad === 0) return 'Not checked';
  return bad > 0 ? `${countedWords(count)}: ${badWords(results)}` : countedWords(count);
}

/** `7 good, 1 bad, 2 not checked`, without what there is none of. */
export function countedWords({ good, bad, notChecked }: Count): string {
  const parts = [`${good} good`];
  if (bad > 0) parts.push(`${bad} bad`);
  if (notChecked > 0) parts.push(`${notChecked} not checked`);
  return parts.join(', ');
}

/** The shots of one press: said once where they are alike, else mould by mould. */
export function openedWords(
  shots: readonly (readonly Result[])[],
  names: readonly string[],
): string {
  const words = shots.map(resultWords);
  const [first = 'Nothing'] = words;
  if (words.every((one) => one === first)) return first;
  return words.map((one, index) => `${names[index] ?? 'A mould'}: ${lowered(one)}`).join('. ');
}

/** With a small first letter, to stand inside a sentence. */
export function lowered(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

/** Cavity numbers with their defect, `6 short`; cavities of one defect in a row share its word. */
function badWords(results: readonly Result[]): string {
  const groups = new Map<string, number[]>();
  results.forEach((result, index) => {
    if (result === 'good' || result === 'closed' || result === 'not-checked') return;
    const word = lowered(defectWords[result]);
    groups.set(word, [...(groups.get(word) ?? []), index + 1]);
  });
  return [...groups].map(([word, cavities]) => `${cavities.join(', ')} ${word}`).join('; ');
}
