/** Which window has the table in hand: one at a time, so that no round is logged twice. */
export interface TableLock {
  /**
   * Asks for the table. `tell` hears whether it is in hand here, now and at every change; a window
   * that waits gets it when the other one closes.
   */
  ask(tell: (isHere: boolean) => void): TableClaim;
}

export interface TableClaim {
  /** Takes the table over from whichever window has it. */
  take(): void;
  letGo(): void;
}

/**
 * The table of the logbook `name` among all windows of this device. Web Locks, W3C: a lock ends with
 * its window, even a killed one, and can be stolen. Where locks are unknown every window has the table:
 * the log is a list to which windows only add.
 */
export function deviceTableLock(name: string): TableLock {
  const word = `${name}-table`;
  const wasPressed = pressWatch();
  return {
    ask(tell) {
      if (!('locks' in navigator)) {
        tell(true);
        return { take: () => {}, letGo: () => {} };
      }
      return claimOf(word, wasPressed(), tell);
    },
  };
}

/** A press is what made this window ask for so long. */
const pressMs = 5_000;

/**
 * Whether somebody has just pressed in this window. What browsers call user activation does not tell:
 * a window that was only opened by a press may have it from its first moment.
 */
function pressWatch(): () => boolean {
  let isFresh = false;
  let fading: ReturnType<typeof setTimeout> | undefined;
  const note = ({ isTrusted }: Event) => {
    if (!isTrusted) return;
    isFresh = true;
    clearTimeout(fading);
    fading = setTimeout(() => {
      isFresh = false;
    }, pressMs);
  };
  for (const press of ['pointerdown', 'keydown', 'click']) {
    document.addEventListener(press, note, { capture: true, passive: true });
  }
  return () => isFresh;
}

function claimOf(word: string, wasPressed: boolean, tell: (isHere: boolean) => void): TableClaim {
  const { locks } = navigator;
  let isOver = false;
  let release = () => {};
  let queue = new AbortController();

  const hold = async () => {
    if (isOver) return;
    tell(true);
    await new Promise<void>((resolve) => {
      release = resolve;
    });
  };
  /** Stands in the queue; a lock that is stolen is stood for again. */
  const wait = () => {
    if (isOver) return;
    queue = new AbortController();
    const { signal } = queue;
    locks.request(word, { signal }, hold).catch(() => {
      if (!signal.aborted) lost();
    });
  };
  const lost = () => {
    if (isOver) return;
    tell(false);
    wait();
  };

  const take = () => {
    queue.abort();
    locks.request(word, { steal: true }, hold).catch(lost);
  };
  // A session that begins brings every window to the table: it belongs to the one that was just pressed.
  if (wasPressed) take();
  else locks.request(word, { ifAvailable: true }, (lock) => (lock ? hold() : lost())).catch(lost);
  return {
    take,
    letGo() {
      isOver = true;
      queue.abort();
      release();
    },
  };
}
