import type { RoundLoad } from '#calc/round-load.ts';
import { loadWords, type VolumeUnit } from '#screens/volumes.ts';

/** How an injector suits a round, in one quiet line; the short one has little room. */
export function roundLoadWords(
  { loadMl, loads, smaller }: RoundLoad,
  injector: { name: string; capacityMl: number },
  unit: VolumeUnit,
): { long: string; short: string; isTooSmall: boolean } {
  const load = loadWords(loadMl, unit);
  const holds = loadWords(injector.capacityMl, unit);
  if (loads === null) {
    return { long: `Load ${load}: ${holds} is too small`, short: 'too small', isTooSmall: true };
  }
  if (loads > 1) {
    return {
      long: `Load ${load}: ${loads} times ${holds}`,
      short: `${loads} loads`,
      isTooSmall: true,
    };
  }
  if (smaller) {
    return { long: `Load ${load}: ${smaller.name} is enough`, short: load, isTooSmall: false };
  }
  return { long: `Load ${load} of ${holds}`, short: load, isTooSmall: false };
}
