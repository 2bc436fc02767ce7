import { expect, test } from 'vitest';
import { instantNear } from '#calc/near-clock.ts';

const berlin = 'Europe/Berlin';
/** 25 Nov 2026, 0:10 in Berlin, which is UTC+1 in winter (IANA time zone database, from memory). */
const pastMidnight = Date.UTC(2026, 10, 24, 23, 10);

test('just after midnight, 23:50 is the evening before', () => {
  expect(instantNear('23:50', pastMidnight, berlin)).toBe(Date.UTC(2026, 10, 24, 22, 50));
});

test('just before midnight, 0:05 is the day after', () => {
  const at = Date.UTC(2026, 10, 24, 22, 55);
  expect(instantNear('0:05', at, berlin)).toBe(Date.UTC(2026, 10, 24, 23, 5));
});

/** The clocks of Berlin go back at 3:00 on the last Sunday of October (same source). */
test('across the night with 25 hours the day before is still found', () => {
  const at = Date.UTC(2026, 9, 24, 23, 30);
  expect(instantNear('23:30', at, berlin)).toBe(Date.UTC(2026, 9, 24, 21, 30));
});

test.each(['', '24:00', '7:60', '12', 'noon', '1:5'])('%j is no clock time', (text) => {
  expect(instantNear(text, pastMidnight, berlin)).toBeNull();
});
