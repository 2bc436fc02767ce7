import { useEffect, useRef } from 'preact/hooks';
import { beginPress, countContacts, type Down } from '#ui/contacts.ts';

/** How far a greasy finger may slide off a key and still have pressed it, px. */
const slipPx = 24;
const twinMs = 400;
const palmMs = 1_500;

/**
 * Listens for presses as gloves make them: counted when lifted on the key or within a finger's slip
 * of it; a twin within 400 ms, a resting palm (over 1.5 s) and any moment with three contacts count
 * nothing. `onDown` runs at touch-down. Keyboards and screen readers press by click.
 */
export function usePress(onPress: () => void, onDown?: () => void) {
  const down = useRef<Down | null>(null);
  const lastAt = useRef(Number.NEGATIVE_INFINITY);
  const press = (event: Event) => {
    if (event.timeStamp - lastAt.current < twinMs) return;
    lastAt.current = event.timeStamp;
    onPress();
  };
  const leave = () => {
    down.current = null;
  };
  useEffect(countContacts, []);
  return {
    onPointerDown(event: PointerEvent) {
      if (event.button !== 0) return;
      // The finger may slide off the key and must still be heard when it lifts.
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      down.current = beginPress(event);
      onDown?.();
    },
    onPointerUp(event: PointerEvent) {
      const begun = down.current;
      leave();
      if (begun?.pointerId !== event.pointerId || begun.isSpoilt) return;
      if (event.timeStamp - begun.at > palmMs) return;
      if (isNear(event)) press(event);
    },
    onPointerCancel: leave,
    onClick(event: MouseEvent) {
      // A click that no pointer made: Enter, Space or a screen reader.
      if (event.detail === 0) press(event);
    },
  };
}

function isNear(event: PointerEvent): boolean {
  const box = (event.currentTarget as Element).getBoundingClientRect();
  return (
    event.clientX >= box.left - slipPx &&
    event.clientX <= box.right + slipPx &&
    event.clientY >= box.top - slipPx &&
    event.clientY <= box.bottom + slipPx
  );
}
