import type { RefObject } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';

/** An element and the room inside it, CSS px; 0 by 0 until it is laid out. */
export function useSize<E extends HTMLElement>(): [
  RefObject<E | null>,
  { widthPx: number; heightPx: number },
] {
  const element = useRef<E>(null);
  const [size, setSize] = useState({ widthPx: 0, heightPx: 0 });
  useLayoutEffect(() => {
    const measured = element.current;
    if (!measured) return;
    const measure = () =>
      setSize({ widthPx: measured.clientWidth, heightPx: measured.clientHeight });
    measure();
    const watcher = new ResizeObserver(measure);
    watcher.observe(measured);
    return () => watcher.disconnect();
  }, []);
  return [element, size];
}
