import { useEffect, useState } from 'preact/hooks';
import type { SafetyState } from '#live/safety.ts';
import { useShop } from '#live/shop.ts';

/** How safely the logbook lies now. */
export function useSafety(): SafetyState {
  const { safety } = useShop();
  const [state, setState] = useState(() => safety.state());
  useEffect(() => {
    setState(safety.state());
    return safety.hear(() => setState(safety.state()));
  }, [safety]);
  return state;
}
