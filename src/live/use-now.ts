import { useEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';

/** The time, redrawn about every `ms` and at once when the page is seen again. */
export function useNow(ms: number): number {
  const { clock } = useShop();
  const [now, setNow] = useState(() => clock.now());
  useEffect(() => clock.every(ms, () => setNow(clock.now())), [clock, ms]);
  return now;
}
