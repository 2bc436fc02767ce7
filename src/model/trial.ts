/** What can be tried with a new mould: does it fill, do both sides come even, does it take its parts. */
export const trials = ['fills', 'even', 'parts'] as const;
export type Trial = (typeof trials)[number];
