import { describe, expect, test } from 'vitest';
import { daysBefore } from '#calc/day-count.ts';
import { boundsOf, clockText, dayOf, instantOf } from '#calc/days.ts';

const hour = 3_600_000;

/** Change-over days by hand from the rules of each zone (IANA time zone database, from memory). */
const changes = [
  ['Europe/Berlin', '2026-03-29', 23],
  ['Europe/Berlin', '2026-10-25', 25],
  ['America/New_York', '2026-03-08', 23],
  ['America/New_York', '2026-11-01', 25],
  ['Australia/Lord_Howe', '2026-04-05', 24.5],
  ['Australia/Lord_Howe', '2026-10-04', 23.5],
  ['Asia/Kolkata', '2026-03-29', 24],
  ['Pacific/Auckland', '2026-09-27', 23],
  ['America/Sao_Paulo', '2026-10-18', 24],
] as const;

describe('days', () => {
  test.each(changes)('%s has %s hours right: %d', (zone, day, hours) => {
    const { from, to } = boundsOf(day, zone);
    expect((to - from) / hour).toBe(hours);
    expect(dayOf(from, zone)).toBe(day);
    expect(dayOf(to - 1, zone)).toBe(day);
    expect(dayOf(to, zone)).not.toBe(day);
  });

  test('an evening that ends after midnight belongs to the day its zone says', () => {
    const at = Date.UTC(2026, 10, 24, 23, 30);
    expect(dayOf(at, 'Europe/Berlin')).toBe('2026-11-25');
    expect(dayOf(at, 'America/New_York')).toBe('2026-11-24');
    expect(clockText(at, 'Europe/Berlin')).toBe('00:30');
  });

  test('a clock time becomes the instant that the zone shows it at', () => {
    const at = instantOf('2026-11-24', '20:58', 'Europe/Berlin');
    expect(at).toBe(Date.UTC(2026, 10, 24, 19, 58));
    expect(instantOf('2026-11-24', '25:00', 'Europe/Berlin')).toBeNull();
    expect(instantOf('2026-11-24', 'soon', 'Europe/Berlin')).toBeNull();
  });

  test('yesterday is one calendar day before, across a change-over too', () => {
    expect(daysBefore('2026-10-25', '2026-10-26')).toBe(1);
    expect(daysBefore('2026-12-31', '2027-01-01')).toBe(1);
    expect(daysBefore('2026-11-24', '2026-11-24')).toBe(0);
  });
});
