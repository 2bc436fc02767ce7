import type { Verdict } from '#calc/balance.ts';

/** How the two sides of a laminate came out. */
export const verdictWords: Record<Verdict, string> = {
  even: 'Even',
  'a-won': 'Side A won',
  'b-won': 'Side B won',
};

/** In the order of their keys. */
export const verdicts: readonly Verdict[] = ['a-won', 'even', 'b-won'];
