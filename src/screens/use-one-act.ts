import { useRef, useState } from 'preact/hooks';
import { hrefTo, type Route } from '#screens/routes.ts';

/**
 * Does what a key says, once however often it is pressed meanwhile. An act that gives a route leads
 * there, and the key has then done its work. `trouble` is a sentence when the last one failed.
 */
export function useOneAct() {
  const isUnderWay = useRef(false);
  const [trouble, setTrouble] = useState('');
  async function act(doing: () => Promise<Route | null>): Promise<void> {
    if (isUnderWay.current) return;
    isUnderWay.current = true;
    try {
      const next = await doing();
      setTrouble('');
      if (next) window.location.hash = hrefTo(next);
      else isUnderWay.current = false;
    } catch {
      setTrouble('Not saved. Free some space and press again.');
      isUnderWay.current = false;
    }
  }
  return { act, trouble };
}
