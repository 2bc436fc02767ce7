import type { ChangeVerdict } from '#calc/before-after.ts';
import type { Outcome } from '#calc/mould-shots.ts';
import type { Change } from '#model/change.ts';
import { countWords, defectWords } from '#screens/words.ts';
import { ofWords } from '#screens/yield-words.ts';

/** What was done, as on its key, and as a question. */
export const changeWords: Record<Change['kind'], { key: string; question: string }> = {
  'vent-opened': { key: 'Vent opened', question: 'Did opening the vent help?' },
  'vents-cleaned': { key: 'Vents cleaned', question: 'Did cleaning the vents help?' },
  'mould-cleaned': { key: 'Mould cleaned', question: 'Did cleaning the mould help?' },
  injector: { key: 'New injector', question: 'Did the new injector help?' },
  'push-speed': { key: 'Other push speed', question: 'Did the other push speed help?' },
  'set-time': { key: 'Other set time', question: 'Did the other set time help?' },
  other: { key: 'Something else', question: 'Did the change help?' },
  'drift-seen': { key: 'Drift seen', question: 'Does it run as usual?' },
};

/** `Vent opened, cavity 6`. */
export function changeLine({ kind, cavities }: Pick<Change, 'kind' | 'cavities'>): string {
  return [changeWords[kind].key, ...(cavities.length > 0 ? [cavityWords(cavities)] : [])].join(
    ', ',
  );
}

/** `cavity 6`, `cavities 3 and 6`. */
export function cavityWords(cavities: readonly number[]): string {
  const sorted = cavities.toSorted((a, b) => a - b);
  if (sorted.length === 1) return `cavity ${sorted[0]}`;
  return `cavities ${sorted.slice(0, -1).join(', ')} and ${sorted.at(-1)}`;
}

/** What is counted, in the middle of a sentence: `short`, `bad`. */
export function outcomeWord(outcome: Outcome): string {
  return outcome === 'bad' ? 'bad' : defectWords[outcome].toLowerCase();
}

/** The verdict in two or three words. */
export function verdictTag(verdict: ChangeVerdict): string {
  switch (verdict.kind) {
    case 'helped':
      return 'It helped';
    case 'made-worse':
      return 'It got worse';
    case 'no-real-difference':
      return 'No real difference';
    default:
      return 'Too early to tell';
  }
}

/** The counts behind a verdict. */
export function countsSentence(
  verdict: Exclude<ChangeVerdict, { kind: 'too-few' }>,
  outcome: Outcome,
  cavity: number | null,
): string {
  const { before, after, others } = verdict;
  const where = cavity === null ? 'The whole mould' : `Cavity ${cavity}`;
  const own = `${where}: ${ofWords(before.bad, before.total)} ${outcomeWord(outcome)} before, ${ofWords(after.bad, after.total)} after.`;
  if (!others) return own;
  const rest = `${ofWords(others.before.bad, others.before.total)} before, ${ofWords(others.after.bad, others.after.total)} after`;
  return `${own} The other cavities: ${rest}.`;
}

/** How large the change is, how sure, and what more would tell. */
export function sizeSentence(verdict: ChangeVerdict): string {
  if (verdict.kind === 'too-few') {
    const { shotsBefore, shotsAfter, needed } = verdict;
    const so = `${countWords(shotsBefore, 'shot')} before, ${shotsAfter} since.`;
    if (shotsBefore < needed) return `${so} Too few came before it: nothing to hold it against.`;
    return `${so} About ${countWords(needed - shotsAfter, 'more shot')} for a first answer.`;
  }
  const [d, lo, hi] = verdict.change.map((share) => Math.round(share * 100));
  if (d === undefined || lo === undefined || hi === undefined) return '';
  const beyond = verdict.others ? ' more than the others' : '';
  switch (verdict.kind) {
    case 'helped':
      return `Better by ${points(-d)}${beyond}. It could be anything from ${-hi} to ${-lo}.`;
    case 'made-worse':
      return `Worse by ${points(d)}${beyond}. It could be anything from ${lo} to ${hi}.`;
    case 'no-real-difference':
      return 'Whatever it did is smaller than 5 points either way.';
    case 'unclear': {
      const looks =
        d === 0
          ? 'Looks the same.'
          : `Looks ${d < 0 ? 'better' : 'worse'} by ${points(Math.abs(d))}.`;
      const range = `It could be anything from ${-lo} better to ${hi} worse.`;
      const more =
        verdict.moreShots === null
          ? 'More shots alone will not tell: too few came before.'
          : `About ${countWords(verdict.moreShots, 'more shot')} will tell.`;
      return `${looks} ${range} ${more}`;
    }
  }
}

function points(count: number): string {
  return countWords(count, 'point');
}
