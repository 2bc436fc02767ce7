import { useEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';

const wipeMs = 8_000;

/** Freezes the glass for eight seconds so that it can be wiped; it thaws by itself. */
export function useWipe(): [leftMs: number, wipe: () => void] {
  const { clock } = useShop();
  const [until, setUntil] = useState(0);
  const [now, setNow] = useState(0);
  useEffect(() => {
    if (until === 0) return;
    return clock.every(200, () => {
      setNow(clock.now());
      if (clock.now() >= until) setUntil(0);
    });
  }, [clock, until]);
  const wipe = () => {
    setNow(clock.now());
    setUntil(clock.now() + wipeMs);
  };
  return [until === 0 ? 0 : Math.max(0, until - now), wipe];
}
