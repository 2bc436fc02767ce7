import { useEffect, useState } from 'preact/hooks';
import { inSteps } from '#store/steps.ts';

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

/** As `useWorked`, for a sum that is long on a long log: the page draws and hears presses in between. */
export function useWorkedSteps<T>(
  steps: () => Generator<void, T>,
  on: readonly unknown[],
): T | undefined {
  const [found, setFound] = useState<{ value: T } | undefined>();
  useEffect(() => {
    let isOver = false;
    const timer = setTimeout(async () => {
      const value = await inSteps(steps(), () => isOver);
      if (value !== undefined && !isOver) setFound({ value });
    });
    return () => {
      isOver = true;
      clearTimeout(timer);
    };
  }, on);
  return found?.value;
}
