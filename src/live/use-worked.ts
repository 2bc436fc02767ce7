import { useEffect, useState } from 'preact/hooks';

/**
 * What `work` gives, worked out once the page has drawn, so that no sum stands between a press and
 * what it shows; undefined before the first. Worked out again when one of `on` is another thing;
 * until then the last stays, so that nothing on the page jumps.
 */
export function useWorked<T>(work: () => T, on: readonly unknown[]): T | undefined {
  const [found, setFound] = useState<{ value: T } | undefined>();
  useEffect(() => {
    const timer = setTimeout(() => setFound({ value: work() }));
    return () => clearTimeout(timer);
  }, on);
  return found?.value;
}
