import { useRef, useState } from 'preact/hooks';
import { hrefTo, type Route } from '#screens/routes.ts';
import { useTurns } from '#screens/use-turns.ts';
import { useIsHere } from '#ui/use-is-here.ts';

/**
 * Does what a key says, once however often it is pressed meanwhile. `key` tells the keys of one part from
 * each other: a press of another one is done in its turn. An act that gives a route leads there, unless the
 * person has gone elsewhere meanwhile, and the part has then done its work. `trouble` is a sentence when the
 * last one failed.
 */
export function useOneAct() {
  const inTurn = useTurns();
  const hasLeft = useRef(false);
  const isHere = useIsHere();
  const [trouble, setTrouble] = useState('');
  async function act(doing: () => Promise<Route | null>, key = ''): Promise<void> {
    await inTurn(key, async () => {
      if (hasLeft.current) return;
      try {
        const next = await doing();
        setTrouble('');
        if (!next) return;
        hasLeft.current = true;
        if (isHere.current) window.location.hash = hrefTo(next);
      } catch {
        setTrouble('Not saved. Free some space and press again.');
      }
    });
  }
  return { act, trouble };
}
