import { useEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';

const wipeMs = 8_000;

/** Freezes the glass for eight seconds so that it can be wiped; it thaws by itself. */
export function useWipe(): [leftMs: number, wipe: () => void] {
  const { clock } = useShop();
  const [from, setFrom] = useState<number | null>(null);
  const [now, setNow] = useState(0);
  // A hand wipes no faster in the demo shop, where the clocks run fast.
  const leftMs = from === null ? 0 : Math.max(0, wipeMs - clock.realMs(now - from));
  useEffect(() => {
    if (from === null) return;
    return clock.every(200, () => {
      setNow(clock.now());
      if (clock.realMs(clock.now() - from) >= wipeMs) setFrom(null);
    });
  }, [clock, from]);
  const wipe = () => {
    setNow(clock.now());
    setFrom(clock.now());
  };
  return [leftMs, wipe];
}
