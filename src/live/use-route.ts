import { useEffect, useState } from 'preact/hooks';

/** The hash of the address, kept up to date. */
export function useHash(): string {
  const [hash, setHash] = useState(() => window.location.hash);
  useEffect(() => {
    const read = () => setHash(window.location.hash);
    window.addEventListener('hashchange', read);
    // It may have changed between the first drawing and now.
    read();
    return () => window.removeEventListener('hashchange', read);
  }, []);
  return hash;
}
