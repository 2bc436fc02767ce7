import { countWords } from '#screens/words.ts';
import type { Untold } from '#store/canary.ts';
import type { Held } from '#store/keeping.ts';

/** What was found at the start and done about it, each in one sentence. */
export function untoldWords(untold: Untold): string[] {
  const { putBack, putRight, setAside, missingEntries, missingMoulds, copyAgain } = untold;
  const [back, right] = [tallyWords(putBack), tallyWords(putRight)];
  const missing = listed([
    [missingEntries, 'line of the log', 'lines of the log'],
    [missingMoulds, 'mould', 'moulds'],
  ]);
  return [
    back.words && `${back.words} ${wasOrWere(back)} put back from the second copy.`,
    right.words &&
      `${right.words} had changed by ${right.total === 1 ? 'itself' : 'themselves'}: put right from the second copy.`,
    setAside > 0 &&
      `${countWords(setAside, 'record')} could not be read. ${setAside === 1 ? 'It is' : 'They are'} kept in the Workshop, under Set aside.`,
    missing.words && `The phone lost ${missing.words}. The second copy does not have them.`,
    copyAgain && 'The second copy was damaged or gone. It is written again.',
  ].filter((words) => typeof words === 'string' && words !== '') as string[];
}

/** `3 sessions and 2 moulds`. */
export function heldWords({ sessions, moulds }: Held): string {
  return `${countWords(sessions, 'session')} and ${countWords(moulds, 'mould')}`;
}

function tallyWords(tally: Untold['putBack']) {
  return listed([
    [tally.sessions, 'session', 'sessions'],
    [tally.moulds, 'mould', 'moulds'],
    [tally.colourways, 'colour', 'colours'],
    [tally.injectors, 'injector', 'injectors'],
    [tally.others, 'other record', 'other records'],
  ]);
}

function listed(counts: readonly (readonly [count: number, one: string, many: string])[]) {
  const parts = counts
    .filter(([count]) => count > 0)
    .map(([count, one, many]) => countWords(count, one, many));
  const words = [parts.slice(0, -1).join(', '), parts.at(-1) ?? ''].filter(Boolean).join(' and ');
  return { words, total: counts.reduce((sum, [count]) => sum + count, 0) };
}

function wasOrWere({ total }: { total: number }): string {
  return total === 1 ? 'was' : 'were';
}
