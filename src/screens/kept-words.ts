import { countWords } from '#screens/words.ts';
import type { Untold } from '#store/canary.ts';
import type { Held } from '#store/held.ts';

/** What was found at the start and done about it, each in one sentence. */
export function untoldWords(untold: Untold): string[] {
  const { putBack, putRight, setAside, missingPictures, copyAgain } = untold;
  const [back, right] = [tallyWords(putBack), tallyWords(putRight)];
  const missing = listed([
    [untold.missingEntries, 'line of the log', 'lines of the log'],
    [untold.missingMoulds, 'mould', 'moulds'],
    [untold.missingOthers, 'other record', 'other records'],
  ]);
  return [
    back.words && `${back.words} ${wasOrWere(back)} put back from the second copy.`,
    right.words &&
      `${right.words} had changed by ${right.total === 1 ? 'itself' : 'themselves'}: put right from the second copy.`,
    setAside > 0 &&
      `${countWords(setAside, 'record')} could not be read. ${setAside === 1 ? 'It is' : 'They are'} kept in the Workshop, under Set aside.`,
    missing.words && `The phone lost ${missing.words}. The second copy does not have them.`,
    missingPictures > 0 && `The phone lost ${countWords(missingPictures, 'picture')}. ${bareWords}`,
    copyAgain && 'The second copy was damaged or gone. It is written again.',
  ].filter((words) => typeof words === 'string' && words !== '') as string[];
}

/** Why a lost picture is in no second copy, and where it may be. */
const bareWords = 'Pictures are in no second copy. Open a copy that you took with photos.';

/** What the photos without a picture mean; empty: there are none. */
export function withoutPictureWords(bare: number): string {
  if (bare === 0) return '';
  return `${countWords(bare, 'photo')} ${bare === 1 ? 'has' : 'have'} no picture here. ${bareWords}`;
}

/** `3 sessions, 2 moulds and 8 other records`. */
export function heldWords({ sessions, moulds, others, records }: Held): string {
  const { words } = listed([
    [sessions, 'session', 'sessions'],
    [moulds, 'mould', 'moulds'],
    [
      others,
      sessions + moulds > 0 ? 'other record' : 'record',
      sessions + moulds > 0 ? 'other records' : 'records',
    ],
  ]);
  return words || (records > 0 ? 'your settings' : 'nothing');
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
