import type { SaidOf } from '#model/entry.ts';
import type { Mix } from '#model/mix.ts';
import { doseWords } from '#screens/dose-words.ts';
import { joined } from '#screens/words.ts';

/** Which doses count for pots that were of another colour, and so leave the shelf. */
export function countedWords({ name, pots }: SaidOf<'pot-mixed'>, mix: Mix | null): string {
  if (!mix) return `No doses count for it: no mix of ${name} is written down.`;
  const each = pots.flatMap(({ name: own, mix: poured }) => {
    const doses = (poured?.doses ?? []).map(
      (dose) => `${dose.name} ${doseWords(dose.amount, dose.unit)}`,
    );
    if (doses.length === 0) return [];
    return [pots.length > 1 ? `${own}: ${joined(doses)}.` : `${joined(doses)}.`];
  });
  if (each.length === 0) return 'No doses count for it.';
  return `Its doses by ${name} ${mix.version} count now, also on the shelf. ${each.join(' ')}`;
}
