/** Runs `act` while no other window runs one of this name; at once where locks are unknown. */
export async function inTurn<T>(name: string, act: () => Promise<T>): Promise<T> {
  if (!('locks' in navigator)) return await act();
  return await navigator.locks.request(name, act);
}
