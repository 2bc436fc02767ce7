/** What time it is. */
export interface Clock {
  /** Milliseconds since 1970. Steady while the page is seen: a turned wall clock does not reach it. */
  now(): number;
  /** Calls back about every `ms`, and at once when the page is seen again, until the returned function is called. */
  every(ms: number, tick: () => void): () => void;
  /** How far the wall clock was turned since the page came in sight; near 0: not at all. */
  jumpMs(): number;
  /** How long a span of this clock takes in real time: the same, unless it runs fast. */
  realMs(ms: number): number;
  /** The IANA zone of the device. */
  zone(): string;
}

/** Before and after these no phone is right: the log takes times from 2000 to 2100. */
const earliest = Date.UTC(2000, 0, 1);
const latest = Date.UTC(2099, 0, 1);

/**
 * The wall clock alone, for a worker: it sees no page that could be out of sight. A phone whose
 * battery was empty may wake in 1970, and its presses are to be stored all the same.
 */
export function wallNow(): number {
  return Math.min(latest, Math.max(earliest, Date.now()));
}

/**
 * The device's clock. While the page is in sight, time is counted from the last look at the wall
 * clock, so that somebody who sets the clock cannot move a running countdown. A page that was out
 * of sight may have slept, which only the wall clock knows: it is looked at again.
 */
export function systemClock(): Clock {
  let wall = wallNow();
  let mono = performance.now();
  const lookAgain = () => {
    wall = wallNow();
    mono = performance.now();
  };
  document.addEventListener('visibilitychange', lookAgain);
  window.addEventListener('pageshow', lookAgain);
  const steady = () => wall + (performance.now() - mono);
  return {
    now() {
      if (document.visibilityState === 'hidden') lookAgain();
      return Math.round(steady());
    },
    jumpMs: () => Math.round(wallNow() - steady()),
    realMs: (ms) => ms,
    every(ms, tick) {
      const timer = setInterval(tick, ms);
      document.addEventListener('visibilitychange', tick);
      return () => {
        clearInterval(timer);
        document.removeEventListener('visibilitychange', tick);
      };
    },
    zone: () => Intl.DateTimeFormat().resolvedOptions().timeZone,
  };
}
