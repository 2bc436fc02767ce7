import type { ShutBand, ShutDents } from '#calc/shut-dents.ts';
import { timesWords } from '#screens/goes-with-words.ts';
import { clockWords, countWords } from '#screens/words.ts';

/** `under 1:30`, `1:30 to 2:00`, `2:00 and more`. */
export function bandWords({ fromSec, toSec }: ShutBand): string {
  if (fromSec === null && toSec === null) return 'any time';
  if (fromSec === null) return `under ${clockWords(toSec ?? 0)}`;
  if (toSec === null) return `${clockWords(fromSec)} and more`;
  return `${clockWords(fromSec)} to ${clockWords(toSec)}`;
}

/** Why there is no picture. */
export function noPictureWords(found: Exclude<ShutDents, { kind: 'bands' }>): string {
  switch (found.kind) {
    case 'too-few-shots': {
      const more = countWords(found.needed - found.shots, 'more warm shot');
      return `Too early to tell. About ${more} opened at the table.`;
    }
    case 'no-dents':
      return `No dent in ${countWords(found.checked, 'bait')}: nothing to hold times against.`;
    case 'one-time':
      return `All ${countWords(found.shots, 'shot')} were opened at about one time. Open some sooner and some later to compare.`;
  }
}

/** Whether dents go with the time shut, the claim first; never that one makes the other. */
export function shutWords({
  verdict,
  shots,
  sessions,
}: Extract<ShutDents, { kind: 'bands' }>): [lead: string, rest: string] {
  const from = `From ${countWords(shots, 'shot')} in ${countWords(sessions, 'session')}.`;
  const early = 'Too early to tell whether dents go with time shut.';
  switch (verdict?.kind) {
    case 'goes-with': {
      const { oddsRatio, lo, hi } = verdict;
      const isSooner = oddsRatio < 1;
      const [odds, least, highest] = isSooner
        ? [1 / oddsRatio, 1 / hi, 1 / lo]
        : [oddsRatio, lo, hi];
      const per = `The odds are ${timesWords(odds)} times for every half minute (${timesWords(least)} to ${timesWords(highest)}).`;
      const sure = 'To be sure, open 10 shots sooner and 10 later, taking turns.';
      return [
        `Dents go with ${isSooner ? 'opening sooner' : 'staying shut longer'}.`,
        `${per} ${from} ${sure}`,
      ];
    }
    case 'no-sign':
      return ['No sign that dents go with time shut.', from];
    case 'tangled':
      return [early, `Time shut moved together with something else. ${from}`];
    case 'too-few-failures':
      return [
        early,
        `${Math.floor(verdict.effective)} of ${verdict.needed} dents that count. ${from}`,
      ];
    case 'too-few-values':
    case 'too-few-sessions':
      return [early, `Too few different times. ${from}`];
    case undefined:
      return [early, from];
  }
}
