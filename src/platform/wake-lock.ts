/** Keeps the screen awake. */
export interface WakeLock {
  /**
   * Asks for the screen to stay on, and again whenever the page is seen, touched or pedalled. `tell` hears
   * whether it does. Returns how to let go.
   */
  hold(tell: (isAwake: boolean) => void): () => void;
}

/** The device's own wake lock; where there is none, it says that the screen may sleep. */
export const deviceWakeLock: WakeLock = {
  hold(tell) {
    let lock: WakeLockSentinel | null = null;
    let isOver = false;
    /** A second lock asked for meanwhile could never be let go. */
    let isAsking = false;
    const ask = () => {
      if (isOver || isAsking || document.visibilityState === 'hidden') return;
      if (lock && !lock.released) return;
      if (!('wakeLock' in navigator)) return tell(false);
      isAsking = true;
      navigator.wakeLock.request('screen').then(
        (granted) => {
          isAsking = false;
          if (isOver) return void granted.release();
          lock = granted;
          granted.addEventListener('release', () => tell(false));
          tell(true);
        },
        () => {
          isAsking = false;
          tell(false);
        },
      );
    };
    ask();
    document.addEventListener('visibilitychange', ask);
    document.addEventListener('pointerdown', ask);
    // A pedal is a keyboard: an evening may go by without a touch.
    document.addEventListener('keydown', ask, true);
    return () => {
      isOver = true;
      document.removeEventListener('visibilitychange', ask);
      document.removeEventListener('pointerdown', ask);
      document.removeEventListener('keydown', ask, true);
      void lock?.release();
    };
  },
};
