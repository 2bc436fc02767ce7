import type { Trial } from '#model/trial.ts';

/** What a trial found, as on its key: it did, it did not. */
export const trialWords: Record<Trial, readonly [did: string, didNot: string]> = {
  fills: ['Fills', 'Fills badly'],
  even: ['Even', 'Uneven'],
  parts: ['Takes parts', 'Parts fail'],
};
