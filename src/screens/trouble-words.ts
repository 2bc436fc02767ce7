import { type Why, whyOf } from '#store/copy/refusal.ts';

const sentences: Record<Why, string> = {
  'not-a-copy': 'This is no Warmshot copy. Its name ends in .warmshot.',
  newer: 'This copy was made by a newer Warmshot. Update the app first, then open it.',
  damaged: 'This file is damaged: it is not what was written. Try another copy.',
  'cut-short': 'This file is cut short: its end is missing. Fetch it once more.',
  'needs-words': 'This copy is locked. Type its words.',
  'wrong-words': 'These are not its words. Look at them again.',
  'too-big': 'This file is too big for a logbook.',
  'not-allowed': 'This file holds what no logbook writes.',
  'too-long': 'Reading took too long. Close other windows and try again.',
  stopped: 'Stopped.',
};

/** What went wrong with a file, and that nothing was changed by it. */
export function troubleWords(error: unknown): string {
  const why = whyOf(error);
  if (!why) return 'That did not work. Free some space and try again.';
  const more = error instanceof Error && error.message !== why ? ` ${error.message}` : '';
  return `${sentences[why]}${more}`;
}
