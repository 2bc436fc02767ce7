import { useEffect } from 'preact/hooks';

const off = (event: Event) => event.preventDefault();
const offWithTwo = (event: TouchEvent) => {
  if (event.touches.length > 1) event.preventDefault();
};

/**
 * While the table is on the glass, nothing that greasy gloves do by accident has an effect: no menu of
 * a long press, no pinch, no double tap. A press leaves the focus where it is, on nothing: a pedal
 * that sends Enter or Space would else press the key that was touched last.
 */
export function useTableGuards(): void {
  useEffect(() => {
    const letGo = () => {
      if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    };
    const guards: [string, (event: never) => void][] = [
      ['contextmenu', off],
      ['gesturestart', off],
      ['dblclick', off],
      ['mousedown', off],
      ['touchmove', offWithTwo],
      ['pointerdown', letGo],
    ];
    for (const [kind, guard] of guards) {
      document.addEventListener(kind, guard as EventListener, { passive: false });
    }
    return () => {
      for (const [kind, guard] of guards) {
        document.removeEventListener(kind, guard as EventListener);
      }
    };
  }, []);
}
