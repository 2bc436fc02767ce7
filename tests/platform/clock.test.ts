import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Instant } from '#model/schemas.ts';
import { type Clock, systemClock } from '#platform/clock.ts';

const hourMs = 3_600_000;
/** What a script may take between two looks; far from an hour. */
const aMomentMs = 5_000;

let clock: Clock;

beforeEach(() => {
  expect(document.visibilityState, 'the page is in sight').toBe('visible');
  clock = systemClock();
});

afterEach(() => {
  vi.restoreAllMocks();
});

/** Somebody sets the wall clock; `performance.now` goes on, as HR Time Level 3, W3C, asks of it. */
function turnWallClock(byMs: number): void {
  const real = Date.now;
  vi.spyOn(Date, 'now').mockImplementation(() => real() + byMs);
}

function setSight(state: DocumentVisibilityState): void {
  vi.spyOn(document, 'visibilityState', 'get').mockReturnValue(state);
  document.dispatchEvent(new Event('visibilitychange'));
}

function movedMs(since: number): number {
  return clock.now() - since;
}

test.each([
  ['forwards', hourMs],
  ['back', -hourMs],
])('a wall clock that is turned %s an hour in sight moves no countdown', (_way, byMs) => {
  const before = clock.now();
  turnWallClock(byMs);
  expect(movedMs(before)).toBeGreaterThanOrEqual(0);
  expect(movedMs(before)).toBeLessThan(aMomentMs);
  expect(Math.abs(clock.jumpMs() - byMs)).toBeLessThan(aMomentMs);
});

test.each([
  ['1970', 60_000, 2000],
  ['2200', Date.UTC(2200, 0, 1), 2099],
])(
  'a phone that wakes in %s is not believed: its presses can still be stored',
  (_year, wall, year) => {
    vi.spyOn(Date, 'now').mockReturnValue(wall);
    const woken = systemClock();
    expect(new Date(woken.now()).getUTCFullYear()).toBe(year);
    expect(Instant.safeParse(woken.now()).success).toBe(true);
    expect(Math.abs(woken.jumpMs())).toBeLessThan(aMomentMs);
  },
);

test('a clock that nobody turned says so', () => {
  expect(Math.abs(clock.jumpMs())).toBeLessThan(aMomentMs);
});

test('after the page was out of sight the wall clock counts: it alone ran through the sleep', () => {
  const before = clock.now();
  setSight('hidden');
  turnWallClock(hourMs);
  setSight('visible');
  expect(Math.abs(movedMs(before) - hourMs)).toBeLessThan(aMomentMs);
  expect(Math.abs(clock.jumpMs())).toBeLessThan(aMomentMs);
});

test('out of sight every look is at the wall clock', () => {
  setSight('hidden');
  const before = clock.now();
  turnWallClock(hourMs);
  expect(Math.abs(movedMs(before) - hourMs)).toBeLessThan(aMomentMs);
});

test('a page that comes back from the browser’s cache looks at the wall clock', () => {
  const before = clock.now();
  turnWallClock(hourMs);
  window.dispatchEvent(new PageTransitionEvent('pageshow', { persisted: true }));
  expect(Math.abs(movedMs(before) - hourMs)).toBeLessThan(aMomentMs);
});

test('a hand that is waited for is called when the page is seen again, and no more once it let go', () => {
  const tick = vi.fn();
  const stop = clock.every(hourMs, tick);
  setSight('hidden');
  setSight('visible');
  expect(tick).toHaveBeenCalled();
  tick.mockClear();
  stop();
  setSight('visible');
  expect(tick).not.toHaveBeenCalled();
});

test('the zone is a name that the calendar knows', () => {
  expect(() => new Intl.DateTimeFormat('en', { timeZone: clock.zone() })).not.toThrow();
});
