import type { Clock } from '#platform/clock.ts';

/**
 * True once the work is done; false when it fails, or gives no answer for `ms`: then it may still be
 * done later. A phone that slept in between has not waited yet. It never rejects.
 */
export function inTime(clock: Clock, work: Promise<unknown>, ms: number): Promise<boolean> {
  return new Promise((resolve) => {
    const from = clock.now();
    let ticks = 0;
    const end = (isDone: boolean) => {
      stop();
      resolve(isDone);
    };
    const stop = clock.every(ms / 2, () => {
      ticks += 1;
      if (ticks > 1 && clock.realMs(clock.now() - from) >= ms) end(false);
    });
    work.then(
      () => end(true),
      () => end(false),
    );
  });
}
