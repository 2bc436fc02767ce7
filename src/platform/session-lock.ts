/** The word that a window gives while a session is open in it: no update may reload it. */
const lockName = 'warmshot-session';

/** Holds the session word until the returned function is called. Does nothing where locks are unknown. */
export function holdSession(): () => void {
  if (!('locks' in navigator)) return () => {};
  let release = () => {};
  const held = new Promise<void>((resolve) => {
    release = resolve;
  });
  navigator.locks.request(lockName, { mode: 'shared' }, () => held).catch(() => {});
  return () => release();
}

/** Runs `act` only if no window holds a session, and says whether it ran. */
export async function ifNoSession(act: () => void): Promise<boolean> {
  if (!('locks' in navigator)) {
    act();
    return true;
  }
  return await navigator.locks.request(
    lockName,
    { mode: 'exclusive', ifAvailable: true },
    (lock) => {
      if (lock) act();
      return lock !== null;
    },
  );
}
