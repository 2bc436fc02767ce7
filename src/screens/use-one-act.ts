import { useRef, useState } from 'preact/hooks';
import { hrefTo, type Route } from '#screens/routes.ts';

/**
 * Does what a key says, once however often it is pressed meanwhile. `key` tells the keys of one part from
 * each other: a press of another one is done in its turn. An act that gives a route leads there, and the
 * part has then done its work. `trouble` is a sentence when the last one failed.
 */
export function useOneAct() {
  const underWay = useRef(new Set<string>());
  const line = useRef<Promise<void>>(Promise.resolve());
  const hasLeft = useRef(false);
  const [trouble, setTrouble] = useState('');
  async function act(doing: () => Promise<Route | null>, key = ''): Promise<void> {
    if (underWay.current.has(key)) return;
    underWay.current.add(key);
    line.current = line.current.then(async () => {
      if (hasLeft.current) return;
      try {
        const next = await doing();
        setTrouble('');
        if (!next) return;
        hasLeft.current = true;
        window.location.hash = hrefTo(next);
      } catch {
        setTrouble('Not saved. Free some space and press again.');
      } finally {
        underWay.current.delete(key);
      }
    });
    await line.current;
  }
  return { act, trouble };
}
