/** What a note is about: three times in the life of a bait. */
export const remarkWords = {
  pour: 'At the pour',
  cure: 'After curing',
  water: 'In the water',
} as const;
