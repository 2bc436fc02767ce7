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
] as const;
export type Defect = (typeof defects)[number];
