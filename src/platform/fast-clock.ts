import type { Clock } from '#platform/clock.ts';

/** A clock that can be set to run fast. */
export interface FastClock extends Clock {
  /** From this instant on, time runs fast; null: at its usual pace again. */
  runFrom(at: number | null): void;
}

/**
 * A clock that runs `times` as fast from a given instant on. Set from the beginning of what is being
 * watched, it shows the same time after a reload as it would have without.
 */
export function fastClock(clock: Clock, times: number): FastClock {
  let from: number | null = null;
  return {
    ...clock,
    now() {
      const real = clock.now();
      return from === null || real < from ? real : Math.round(from + (real - from) * times);
    },
    realMs: (ms) => (from === null ? ms : ms / times),
    runFrom(at) {
      from = at;
    },
  };
}
