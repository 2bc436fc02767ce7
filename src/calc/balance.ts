import { linesOf } from '#calc/log.ts';
import type { Entry } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MixId } from '#model/mix.ts';

/** How the two sides of a laminate came out in one evening. */
export type Verdict = 'even' | 'a-won' | 'b-won';

/**
 * What is said of a laminate in one session, newest word first; null: nothing was. One that was made up
 * at the table goes by its mix until it has a name; `mixIds`: what was said of those is said of it, too.
 */
export function verdictOf(
  entries: readonly Entry[],
  of: ColourwayId | MixId,
  mixIds: readonly MixId[] = [],
): { verdict: Verdict; by: Entry['id'] } | null {
  const line = linesOf(entries).findLast(
    ({ said, takenBackAt }) =>
      takenBackAt === null &&
      said.kind === 'laminate-judged' &&
      [of, ...mixIds].some((id) => id === (said.colourwayId ?? said.mixId)),
  );
  if (line?.said.kind !== 'laminate-judged') return null;
  return { verdict: line.said.verdict, by: line.id };
}

/**
 * How many times as strong side A is as side B: the model of Bradley and Terry (1952, from memory)
 * for two, an even pour half a win for each, and one even pour believed before any was seen. 1 while
 * nothing is known.
 */
export function relativeStrength(verdicts: readonly Verdict[]): number {
  let a = 0.5;
  let b = 0.5;
  for (const verdict of verdicts) {
    a += verdict === 'a-won' ? 1 : verdict === 'even' ? 0.5 : 0;
    b += verdict === 'b-won' ? 1 : verdict === 'even' ? 0.5 : 0;
  }
  return a / b;
}
