import { smallestInjector } from '#calc/injector.ts';
import { roundLoadOf } from '#calc/round-load.ts';
import type { Injector } from '#model/gear.ts';
import type { Mould } from '#model/mould.ts';
import { roundLoadWords } from '#screens/load-words.ts';
import { loadWords, type VolumeUnit } from '#screens/volumes.ts';

interface Props {
  /** In the order of the table. */
  moulds: readonly Mould[];
  injectors: readonly Injector[];
  injector: Injector | null;
  unit: VolumeUnit;
}

/** What a round of these moulds draws, and which injector is enough for it. It advises and never stops. */
export function LoadLine({ moulds, injectors, injector, unit }: Props) {
  const injected = moulds.filter(({ fill }) => fill !== 'by-hand');
  const largest = injectors.toSorted((a, b) => b.capacityMl - a.capacityMl)[0];
  const holder = injector ?? largest;
  const load = holder && roundLoadOf(injected, holder, injectors);
  if (!holder || !load) return null;
  if (injector) return <p role="status">{roundLoadWords(load, injector, unit).long}.</p>;
  const enough = smallestInjector(injectors, load.loadMl);
  const words = loadWords(load.loadMl, unit);
  return (
    <p role="status">
      {enough
        ? `Load ${words}: ${enough.name} is enough.`
        : `Load ${words}: more than one fill of any injector.`}
    </p>
  );
}
