import { expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { clockText, dayOf } from '#calc/days.ts';
import { shopUntilYesterday } from '#calc/moved-shop.ts';
import { tableOf } from '#calc/table.ts';
import { DemoShop } from '#model/demo-shop.ts';
import { madeShop } from '../../demo/made-shop.ts';

const shop = madeShop();
const clocks = (of: DemoShop, zone: string) =>
  of.sessions.map(({ startedAt }) => clockText(startedAt, zone));

/**
 * Noon of 25 Nov 2026 in each zone. Berlin's clocks went back on 25 Oct and New York's on 1 Nov,
 * both inside the four months; Santiago's went forward on 6 Sep, Kolkata's stay (IANA time zone
 * database, from memory).
 */
test.each([
  ['Europe/Berlin', Date.UTC(2026, 10, 25, 11)],
  ['America/New_York', Date.UTC(2026, 10, 25, 17)],
  ['America/Santiago', Date.UTC(2026, 10, 25, 15)],
  ['Asia/Kolkata', Date.UTC(2026, 10, 25, 6, 30)],
  ['Pacific/Kiritimati', Date.UTC(2026, 10, 24, 22)],
])('in %s the last session was yesterday and every clock shows what it showed', (zone, noon) => {
  const moved = shopUntilYesterday(shop, noon, zone);
  expect(dayOf(moved.sessions.at(-1)?.startedAt ?? 0, zone)).toBe('2026-11-24');
  expect(clocks(moved, zone)).toEqual(clocks(shop, 'UTC'));
  expect(new Set(moved.sessions.map((session) => session.zone))).toEqual(new Set([zone]));
});

test('a minute after midnight and a minute before, yesterday is the day before', () => {
  const zone = 'Europe/Berlin';
  const last = (now: number) =>
    dayOf(shopUntilYesterday(shop, now, zone).sessions.at(-1)?.startedAt ?? 0, zone);
  const midnight = Date.UTC(2026, 10, 24, 23);
  expect(last(midnight - 60_000)).toBe('2026-11-23');
  expect(last(midnight + 60_000)).toBe('2026-11-24');
});

test('a phone whose year is behind gets the shop as well', () => {
  const moved = shopUntilYesterday(shop, Date.UTC(2025, 0, 2, 12), 'UTC');
  expect(dayOf(moved.sessions.at(-1)?.startedAt ?? 0, 'UTC')).toBe('2025-01-01');
});

test('what happened in a session stays as it was, only later', () => {
  const zone = 'America/New_York';
  const moved = shopUntilYesterday(shop, Date.UTC(2026, 10, 25, 17), zone);
  expect(DemoShop.parse(moved)).toEqual(moved);
  for (const [index, was] of shop.sessions.entries()) {
    const is = moved.sessions[index];
    if (!is) throw new Error('A session is missing.');
    const by = is.startedAt - was.startedAt;
    expect(is.endedAt - was.endedAt).toBe(by);
    const [before, after] = [columnsOf(was.id, was.entries), columnsOf(is.id, is.entries)];
    const { startedAt, endedAt } = before;
    const newest = is.entries
      .map(({ stamp }) => stamp)
      .sort()
      .at(-1);
    const later = { startedAt: startedAt + by, endedAt: endedAt + by, zone, newest };
    expect(after).toEqual({ ...before, ...later });
    expect(tableOf(is.entries).zone).toBe(zone);
    const stamps = is.entries.map(({ stamp }) => stamp);
    expect(stamps.toSorted()).toEqual(stamps);
  }
});

test('heads are as old as the shop and carry stamps no later than its last session', () => {
  const moved = shopUntilYesterday(shop, Date.UTC(2026, 10, 25, 17), 'UTC');
  const [first, last] = [moved.sessions[0], moved.sessions.at(-1)];
  const newest = last?.entries.at(-1)?.stamp ?? '';
  for (const head of [...moved.moulds, ...moved.injectors, ...moved.colourways]) {
    expect(head.createdAt).toBeLessThan(first?.startedAt ?? 0);
    expect((first?.startedAt ?? 0) - head.createdAt).toBeLessThan(3 * 86_400_000);
    expect(
      Object.values(head.stamps).every((stamp) => stamp.slice(0, 12) <= newest.slice(0, 12)),
    ).toBe(true);
  }
});

test.each(['Europe/Berlin', 'America/Santiago'])(
  'in %s the logged change stays where it was: before the first shot of its evening',
  (zone) => {
    const moved = shopUntilYesterday(shop, Date.UTC(2026, 10, 25, 15), zone);
    const evening = shop.sessions.findIndex(({ startedAt }) => startedAt === shop.changes[0]?.at);
    expect(evening).toBeGreaterThan(0);
    expect(moved.changes).toHaveLength(1);
    expect(moved.changes[0]?.at).toBe(moved.sessions[evening]?.startedAt);
  },
);
