import type { RefObject } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';

/** Whether the part is still on the screen: what ends after the person went on leads them nowhere. */
export function useIsHere(): RefObject<boolean> {
  const isHere = useRef(true);
  useLayoutEffect(
    () => () => {
      isHere.current = false;
    },
    [],
  );
  return isHere;
}
