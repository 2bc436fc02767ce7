import type { Columns } from '#calc/columns.ts';
import { coldFirst, sessionCounts, watchesCold } from '#calc/session-counts.ts';
import { isTooEarlyAcross, yieldIntervalAcross } from '#calc/yield.ts';
import type { MouldYield, Tally } from '#calc/yields.ts';
import { worstCavity } from '#calc/yields.ts';
import { countWords } from '#screens/words.ts';

/** How sure the ranges of this place are. */
export const conf = 0.9;

/** Shares of a hundred: what happened, and between what and what to expect again. */
export interface Expected {
  p: number;
  lo: number;
  hi: number;
}

/** What to expect of shots like those in some digests; null: too few to tell. */
export function expectedOf(columns: readonly Columns[], which: 'all' | 'warm'): Expected | null {
  const counts = sessionCounts(columns, which);
  if (isTooEarlyAcross(counts, conf)) return null;
  const [p, lo, hi] = yieldIntervalAcross(counts, conf).map((share) => Math.round(share * 100));
  return { p: p ?? 0, lo: lo ?? 0, hi: hi ?? 100 };
}

/** `134 of 150`. */
export function ofWords(good: number, checked: number): string {
  return `${good} of ${checked}`;
}

/** Cold and warm apart, and what nobody looked at. */
export function apartWords(columns: readonly Columns[], tally: Tally): string {
  const { shots, good, checked, coldShots, coldGood, coldChecked, notChecked } = tally;
  const sentences: string[] = [];
  if (coldShots > 0 && coldShots === shots) {
    sentences.push('Every shot was cold.');
  } else if (coldShots > 0) {
    const cold = coldWords(coldFirst(columns), coldShots);
    sentences.push(`${cold}: ${ofWords(coldGood, coldChecked)} good.`);
    sentences.push(`Warm shots: ${ofWords(good - coldGood, checked - coldChecked)} good.`);
  } else if (watchesCold(columns)) {
    sentences.push('No shot was cold.');
  }
  if (notChecked > 0) sentences.push(`${notChecked} not checked.`);
  return sentences.join(' ');
}

function coldWords(first: number | null, coldShots: number): string {
  if (first === null) return countWords(coldShots, 'cold shot');
  return first === 1
    ? 'The first shot of each mould was cold'
    : `The first ${first} shots of each mould were cold`;
}

/** A cavity that was bad at least this often is worth a sentence. */
const tellingBad = 2;

/** The cavity with the most bad of its mould, when it was bad more than once and no other as often. */
export function worstOf(own: MouldYield): { cavity: number; bad: number; checked: number } | null {
  const worst = worstCavity(own);
  if (!worst || worst.bad < tellingBad) return null;
  const share = worst.bad / worst.checked;
  const ties = own.byCavity.filter(({ bad, checked }) => checked > 0 && bad / checked >= share);
  return ties.length === 1 ? worst : null;
}

/** `Most bad: Grub 50, cavity 6, 9 of 14.`; null: none stands apart. */
export function worstWords(yields: readonly MouldYield[]): string | null {
  const found = yields.flatMap((own) => {
    const worst = worstOf(own);
    return worst ? [{ name: own.name, ...worst }] : [];
  });
  const [first] = found.sort((a, b) => b.bad / b.checked - a.bad / a.checked);
  if (!first) return null;
  return `Most bad: ${first.name}, cavity ${first.cavity}, ${ofWords(first.bad, first.checked)}.`;
}
