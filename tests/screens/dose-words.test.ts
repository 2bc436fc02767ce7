import { describe, expect, test } from 'vitest';
import { pouredAt } from '#calc/pot-mix.ts';
import type { Dose, MixSide } from '#model/mix.ts';
import { roundedWords } from '#screens/dose-words.ts';

const dose = (amount: number, unit: Dose['unit']): Dose => ({
  materialId: '01990000-0000-7000-8000-000000000001' as Dose['materialId'],
  name: 'Peat',
  amount,
  unit,
  isPinned: false,
});
const side = (...doses: Dose[]): MixSide => ({
  role: 'only',
  name: 'Peat',
  swatch: '#5a4630',
  plastisolId: null,
  doses,
});

describe('how a dose was rounded', () => {
  test('goes the way the number went, and the error the way the colour goes', () => {
    expect(roundedWords(12, 11.6, 'drop', 0.0345)).toBe(
      'Rounded up from 11.6 drops, 3 % more than the mix.',
    );
    expect(roundedWords(1, 1.25, 'drop', -0.2)).toBe(
      'Rounded down from 1.25 drops, 20 % less than the mix.',
    );
  });

  test('says that the plastisol is more where a dose that was rounded up is too little for it', () => {
    // 9 drops and 1/8 tsp for two cups, poured in 1 1/4: 5.625 drops become 6, in up to 10 % more plastisol.
    const { lines, baseMl } = pouredAt(480, side(dose(9, 'drop'), dose(0.125, 'tsp')), 300);
    const [drops] = lines;
    if (!drops) throw new Error('There is no dose.');
    expect(baseMl).toBeCloseTo(330, 6);
    expect(drops.amount).toBe(6);
    // By hand: 6 drops in 330 mL are 8.727 in 480, 3.03 % less than 9.
    expect(drops.errorShare).toBeCloseTo(8.727_272_7 / 9 - 1, 6);
    expect(roundedWords(drops.amount, drops.wanted, 'drop', drops.errorShare)).toBe(
      'Rounded up from 5.63 drops, in this much plastisol 3 % less than the mix.',
    );
  });

  test('is right where the plastisol was moved with it, and nothing where nothing was rounded', () => {
    expect(roundedWords(12, 11.6, 'drop', 0)).toBe(
      'Rounded up from 11.6 drops, right in this much plastisol.',
    );
    expect(roundedWords(12, 12, 'drop', 0)).toBe('');
  });
});
