import { useEffect, useState } from 'preact/hooks';

/** What an entry of the history says that was shown before: who comes to it pressed Back or Forward. */
const seen = 'seen';

/**
 * The hash of the address, kept up to date. `turned` says where an address leads that somebody comes
 * back to: the entry of the history is changed, so that no Back leads to it again.
 */
export function useHash(turned: (hash: string) => string): string {
  const [hash, setHash] = useState(() => window.location.hash);
  useEffect(() => {
    const read = () => {
      const { hash } = window.location;
      const next = window.history.state === seen ? turned(hash) : hash;
      window.history.replaceState(seen, '', next || undefined);
      setHash(next);
    };
    window.addEventListener('hashchange', read);
    // It may have changed between the first drawing and now.
    read();
    return () => window.removeEventListener('hashchange', read);
  }, []);
  return hash;
}

/** Goes to a hash at the start of the app, over the page that it was left on: Back leads there. */
export function openOver(hash: string, turned: (hash: string) => string): void {
  const { location, history } = window;
  if (location.hash === hash && history.state === seen) return;
  history.replaceState(seen, '', turned(location.hash));
  history.pushState(null, '', hash);
}
