import { expect, test } from 'vitest';
import { headWords } from '#screens/colours/side-words.ts';

test.each([
  [{ role: 'a', name: 'Ink' }, 'Side A: Ink'],
  [{ role: 'a', name: 'Side A' }, 'Side A'],
  [{ role: 'only', name: 'Peat' }, 'Body: Peat'],
  [{ role: 'tail', name: 'Lime' }, 'Tail: Lime'],
] as const)('a side is told with its name, and once where that is the same: %#', (side, words) => {
  expect(headWords(side)).toBe(words);
});
