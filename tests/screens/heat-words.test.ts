import { expect, test } from 'vitest';
import { shortHeatWords } from '#screens/heat-words.ts';
import { exactWords } from '#screens/volumes.ts';

const heat = (heatMl: number, lowMl: number, highMl: number) => ({
  shouldMl: heatMl,
  heatMl,
  lowMl,
  highMl,
  runs: 12,
  isGuess: false,
});

/** 28.349523125 g to the avoirdupois ounce: NIST Handbook 44, Appendix C. */
test.each([
  [heat(481, 466, 497), 'g', '481 g, 466–497 g'],
  [heat(481, 466, 497), 'oz', '17 oz, 16–18 oz'],
  [heat(1_262, 1_230, 1_300), 'g', '1262 g, 1230–1300 g'],
  [heat(1_262, 1_230, 1_300), 'oz', '45 oz, 43–46 oz'],
  [heat(220, 210, 231), 'oz', '7.8 oz, 7.4–8.1 oz'],
  [heat(6_000, 5_800, 6_200), 'g', '6.0 kg, 5.8–6.2 kg'],
] as const)('what to heat is told as finely as a scale is read: %#', (of, unit, words) => {
  expect(shortHeatWords(of, unit, 1)).toBe(words);
});

/** 29.5735295625 mL to the US fluid ounce: NIST Handbook 44, Appendix C. */
test('what is measured off exactly is in mL, or in tenths of an ounce where the shop measures in those', () => {
  expect(exactWords(245.4, 'cup')).toBe('245 mL');
  expect(exactWords(245.4, 'mL')).toBe('245 mL');
  expect(exactWords(245.4, 'floz')).toBe('8.3 fl oz');
});
