import { describe, expect, test } from 'vitest';
import {
  boundIn,
  lengthFrom,
  lengthStepped,
  lengthText,
  lengthUnitOf,
  lengthWords,
  stepWords,
} from '#screens/lengths.ts';

// The inch is exactly 25.4 mm (NIST SP 811, B.8).
describe('a length', () => {
  test('is in mm until inches are chosen', () => {
    expect(lengthUnitOf({})).toBe('mm');
    expect(lengthUnitOf({ lengthUnit: 'in' })).toBe('in');
  });

  test.each([
    [12.5, 'mm', '12.5 mm'],
    [12.7, 'in', '0.5 in'],
    [11.1125, 'in', '0.44 in'],
    [8.89, 'mm', '8.89 mm'],
  ] as const)('of %d mm reads in %s as %s', (mm, unit, words) => {
    expect(lengthWords(mm, unit)).toBe(words);
  });

  test.each([
    ['0.5', 'in', 12.7],
    ['0,35', 'in', 8.89],
    ['12,5', 'mm', 12.5],
    ['-1', 'in', -25.4],
    ['half', 'in', null],
    ['', 'mm', null],
  ] as const)('typed as %j in %s is %j mm', (text, unit, mm) => {
    const read = lengthFrom(text, unit, null);
    if (mm === null) expect(read).toBeNull();
    else expect(read).toBeCloseTo(mm, 12);
  });

  test('that was not touched stays as exact as it was', () => {
    // 7.3 mm are 0.287 in on the glass, which are 7.2898 mm.
    expect(lengthText(7.3, 'in')).toBe('0.287');
    expect(lengthFrom('0.287', 'in', 7.3)).toBe(7.3);
    expect(lengthFrom('0.287', 'in', null)).toBeCloseTo(7.2898, 12);
    expect(lengthText(null, 'in')).toBe('');
  });

  test('goes by steps of its unit and stays among baits', () => {
    expect(stepWords('mm')).toBe('1 mm');
    expect(stepWords('in')).toBe('0.05 in');
    expect(lengthStepped(6.5, -1, 'mm')).toBe(6);
    expect(lengthStepped(10, 1, 'in')).toBeCloseTo(0.45 * 25.4, 12);
    expect(lengthStepped(1, -1, 'mm')).toBe(1);
    expect(lengthStepped(40, 1, 'mm')).toBe(40);
    expect(lengthStepped(0.05 * 25.4, -1, 'in')).toBeCloseTo(0.05 * 25.4, 12);
    expect(lengthStepped(39.37, 1, 'in')).toBeCloseTo(1.55 * 25.4, 12);
  });

  test('that is a bound is said in the unit that was typed', () => {
    expect(boundIn('At most 100 mm.', 'in')).toBe('At most 3.94 in.');
    expect(boundIn('At least 0.5 mm.', 'mm')).toBe('At least 0.5 mm.');
    expect(boundIn('At most 100 kg.', 'in')).toBe('At most 100 kg.');
  });
});
