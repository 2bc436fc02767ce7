import { expect, test } from 'vitest';
import { paceOf } from '#calc/pace.ts';
import { tableOf } from '#calc/table.ts';
import { evening, Pen } from '../hands/log.ts';

const min = 60_000;

/** A shot every five minutes from 18:05, each logged four minutes later, if that is over: three good, one short. */
function poured(shots: number, now: number) {
  const pen = new Pen().open();
  for (let shot = 1; shot <= shots; shot += 1) {
    const at = evening + shot * 5 * min;
    pen.fill(1, shot, at);
    if (at + 4 * min <= now) pen.log(shot, ['good', 'good', 'good', 'short'], at + 4 * min);
  }
  return tableOf(pen.entries);
}

const paceAt = (shots: number, now: number) => paceOf(poured(shots, now), now);

// Rates and times by hand: plain counting, no source needed.
test('the pace is that of the last half hour, and tells the good baits of an hour from now', () => {
  // 19:00; filled from 18:30 to 19:00: 7 shots. Logged since 18:30: those of 18:30 to 18:55, 18 good.
  expect(paceAt(12, evening + 60 * min)).toEqual({
    shots: 12,
    shotsAnHour: 14,
    // 11 logged shots are 33 good; 18 in half an hour are 36 in the hour to 20:00.
    ahead: { good: 69, at: evening + 120 * min },
  });
});

test('the moment told ahead is a full ten minutes', () => {
  // 18:57 + 1 h is 19:57: told for 19:50, 53 min away.
  const { ahead } = paceAt(11, evening + 57 * min);
  expect(ahead?.at).toBe(evening + 110 * min);
});

test('a session of less than ten minutes, and one that rests, have no pace', () => {
  expect(paceAt(2, evening + 14 * min)).toEqual({
    shots: 2,
    shotsAnHour: null,
    ahead: null,
  });
  expect(paceAt(3, evening + 90 * min).shotsAnHour).toBeNull();
  expect(paceAt(0, evening + 90 * min)).toEqual({
    shots: 0,
    shotsAnHour: null,
    ahead: null,
  });
});
