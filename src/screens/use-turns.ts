import { useRef } from 'preact/hooks';

/** Does one thing after the other; what is under way already, by its key, is not begun again: null. */
export type InTurn = <T>(key: unknown, doing: () => Promise<T>) => Promise<T | null>;

/** Turns for the presses of one part: none is lost while another is being written, and none is done twice. */
export function useTurns(): InTurn {
  const underWay = useRef(new Set<unknown>());
  const last = useRef<Promise<unknown>>(Promise.resolve());
  return async (key, doing) => {
    if (underWay.current.has(key)) return null;
    underWay.current.add(key);
    const turn = last.current.then(doing).finally(() => underWay.current.delete(key));
    last.current = turn.catch(() => {});
    return await turn;
  };
}
