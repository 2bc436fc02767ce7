/** The word that a window gives while a session is open in it: no update may reload it. */
const sessionWord = 'warmshot-session';
/** One window asks at a time: two that ask at once would take each other for a session. */
const turnWord = 'warmshot-turn';

/** Sessions held in this window, for browsers that know no locks. */
let heldHere = 0;

/** Holds the session word until the returned function is called. */
export function holdSession(): () => void {
  heldHere += 1;
  let letGo = () => {};
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  void held.then(() => {
    heldHere -= 1;
  });
  if ('locks' in navigator) {
    navigator.locks.request(sessionWord, { mode: 'shared' }, () => held).catch(() => {});
  }
  return () => letGo();
}

/**
 * Runs `act` only if no window holds a session, and says whether it ran. Where locks are unknown,
 * only this window is known.
 */
export async function ifNoSession(act: () => void): Promise<boolean> {
  if (!('locks' in navigator)) {
    if (heldHere === 0) act();
    return heldHere === 0;
  }
  const { locks } = navigator;
  return await locks.request(turnWord, () =>
    locks.request(sessionWord, { ifAvailable: true }, (lock) => {
      if (lock) act();
      return lock !== null;
    }),
  );
}
