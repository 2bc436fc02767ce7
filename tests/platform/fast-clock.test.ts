import { expect, test } from 'vitest';
import { fastClock } from '#platform/fast-clock.ts';

function aFastClock() {
  let real = 1_000_000;
  const clock = fastClock(
    {
      now: () => real,
      every: () => () => {},
      jumpMs: () => 0,
      realMs: (ms) => ms,
      zone: () => 'Europe/Berlin',
    },
    10,
  );
  return { clock, pass: (ms: number) => (real += ms) };
}

test('runs at the usual pace until it is told from when on to run fast', () => {
  const { clock, pass } = aFastClock();
  pass(500);
  expect(clock.now()).toBe(1_000_500);
  clock.runFrom(1_000_500);
  expect(clock.now()).toBe(1_000_500);
  pass(3_000);
  expect(clock.now()).toBe(1_030_500);
  expect(clock.realMs(30_000)).toBe(3_000);
  clock.runFrom(null);
  expect(clock.now()).toBe(1_003_500);
  expect(clock.realMs(30_000)).toBe(30_000);
});

test('a time to come is not reached any faster', () => {
  const { clock, pass } = aFastClock();
  clock.runFrom(1_002_000);
  pass(1_000);
  expect(clock.now()).toBe(1_001_000);
});
