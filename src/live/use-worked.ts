import { useEffect, useState } from 'preact/hooks';

/**
 * What `work` gives, worked out once the page has drawn, so that no sum stands between a press and
 * what it shows; undefined until then. Worked out again when one of `on` is another thing.
 */
export function useWorked<T>(work: () => T, on: readonly unknown[]): T | undefined {
  const [found, setFound] = useState<{ on: readonly unknown[]; value: T } | undefined>();
  useEffect(() => {
    const timer = setTimeout(() => setFound({ on, value: work() }));
    return () => clearTimeout(timer);
  }, on);
  const isNow = found?.on.length === on.length && found.on.every((one, at) => one === on[at]);
  return isNow ? found.value : undefined;
}
