import type { TestShop } from './show.tsx';

/** Makes the clock of a shop run by hand from where it stands; returns how to let time pass, which tells how many heard it. */
export function ticking(shop: TestShop): (ms: number) => number {
  const ticks = new Set<() => void>();
  shop.clock.every = (_ms, tick) => {
    ticks.add(tick);
    return () => ticks.delete(tick);
  };
  return (ms) => {
    shop.set(shop.clock.now() + ms);
    for (const tick of [...ticks]) tick();
    return ticks.size;
  };
}
