import { useEffect, useRef } from 'preact/hooks';

/** How long a key is held before it repeats, and then how often, ms. */
const firstMs = 600;
const nextMs = 120;
/** A value that has not moved for so many repeats has reached its end: it may be stored first, which takes a moment. */
const stillMost = 3;

/**
 * A key that repeats while it is held, until `value` moves no more. A keyboard and a screen reader
 * press by click, once.
 */
export function useHold(act: () => void, value: string) {
  const latest = useRef({ act, value });
  latest.current = { act, value };
  const held = useRef<{ timer: ReturnType<typeof setTimeout>; value: string; still: number }>(null);
  const hasRepeated = useRef(false);

  const stop = () => {
    if (held.current) clearTimeout(held.current.timer);
    held.current = null;
  };
  const again = () => {
    const before = held.current;
    if (!before) return;
    const now = latest.current;
    const still = now.value === before.value ? before.still + 1 : 0;
    if (still > stillMost) return stop();
    hasRepeated.current = true;
    now.act();
    held.current = { timer: setTimeout(again, nextMs), value: now.value, still };
  };
  useEffect(() => stop, []);
  return {
    onPointerDown(event: PointerEvent) {
      if (event.button !== 0) return;
      stop();
      hasRepeated.current = false;
      held.current = { timer: setTimeout(again, firstMs), value: '', still: 0 };
    },
    onPointerUp: stop,
    onPointerCancel: stop,
    onPointerLeave: stop,
    onClick() {
      stop();
      // The lift that ends a hold has done its work already.
      if (!hasRepeated.current) latest.current.act();
      hasRepeated.current = false;
    },
  };
}
