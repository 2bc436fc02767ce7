import type { ScrapCheck, ScrapSaid } from '#calc/scrap-check.ts';
import { countWords } from '#screens/words.ts';

/** What the scale says of the marking of one session. */
export function scrapWords(
  check: ScrapCheck | null,
  least: { good: number; counted: number } | null,
): string {
  if (!check) return 'Give each mould its bait volume first: a guessed one proves nothing.';
  switch (check.kind) {
    case 'fits':
      return 'That fits what you marked.';
    case 'more-thrown': {
      const more = `About ${countWords(check.baits, 'bad bait')} more than marked.`;
      const nearer = least ? ` ${least.good} good is then nearer than ${least.counted}.` : '';
      return `${more} The yields then look better than they are.${nearer}`;
    }
    case 'more-marked':
      return `About ${countWords(check.baits, 'bait')} fewer than marked. Some marked bad may have been kept.`;
  }
}

/** What all sessions that were weighed say together; empty: none was. */
export function scrapSaidWords({
  sessions,
  fit,
  moreThrown,
  baits,
  moreMarked,
}: ScrapSaid): string {
  const many = countWords(sessions, 'weighed session');
  if (sessions === 0) return '';
  if (fit === sessions) return `All ${many} fit what was marked.`;
  const parts = [
    fit > 0 ? `${fit} ${fit === 1 ? 'fits' : 'fit'} what was marked` : '',
    moreThrown > 0
      ? `in ${moreThrown} about ${countWords(baits, 'bad bait')} more ${baits === 1 ? 'was' : 'were'} thrown than marked, so the yields here look better than they are`
      : '',
    moreMarked > 0 ? `in ${moreMarked} fewer were thrown than marked` : '',
  ].filter(Boolean);
  return `Of ${many}, ${parts.join('; ')}.`;
}
