import { useEffect, useState } from 'preact/hooks';

/** Whether a media query holds now; it is heard when that changes. */
export function useMedia(query: string): boolean {
  const [holds, setHolds] = useState(() => window.matchMedia(query).matches);
  useEffect(() => {
    const media = window.matchMedia(query);
    const hear = () => setHolds(media.matches);
    hear();
    media.addEventListener('change', hear);
    return () => media.removeEventListener('change', hear);
  }, [query]);
  return holds;
}
