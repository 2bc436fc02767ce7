/** What can be wrong with a bait, in the words on the keys. */
export const defects = [
  'short',
  'dent',
  'bubble',
  'tear',
  'flash',
  'streak',
  'tail-missed',
  'colour-off',
  'other',
  /** Body and part did not hold together; only baits that take parts can do that. */
  'came-apart',
] as const;
export type Defect = (typeof defects)[number];
