/** Calls back once the page has drawn and has nothing better to do, unless the returned function is called first. */
export function whenIdle(act: () => void): () => void {
  if (!('requestIdleCallback' in window)) {
    const timer = setTimeout(act, 1_000);
    return () => clearTimeout(timer);
  }
  const turn = requestIdleCallback(act, { timeout: 1_000 });
  return () => cancelIdleCallback(turn);
}
