import { cavityCount } from '#calc/cavity-layout.ts';
import { roundLoadMl, smallestInjector } from '#calc/injector.ts';
import { type MouldSize, partMlOf, sprueMlOf } from '#calc/mould-size.ts';
import { firstFitDecreasing } from '#calc/packing.ts';

type Filled = MouldSize & { closed: readonly number[] };
interface Holder {
  name: string;
  capacityMl: number;
}

/** What one round draws, and how an injector suits it. */
export interface RoundLoad {
  /** With a margin of a tenth (common practice, no source). */
  loadMl: number;
  /** How often the injector is filled, each mould from one fill; null: one mould alone is too much for it. */
  loads: number | null;
  /** Of the shop's injectors, a smaller one that holds all of it; null: none does. */
  smaller: Holder | null;
}

/**
 * The load of a round that fills these moulds from one injector. The smallest injector that fills
 * all is the one to take (common practice, no source). Null: no mould is filled.
 */
export function roundLoadOf(
  moulds: readonly Filled[],
  injector: Holder,
  shop: readonly Holder[],
): RoundLoad | null {
  const sizes = moulds.map((mould) => roundLoadMl([loadOf(mould)])).filter((ml) => ml > 0);
  if (sizes.length === 0) return null;
  const loadMl = sizes.reduce((sum, ml) => sum + ml, 0);
  const holdsEach = sizes.every((ml) => ml <= injector.capacityMl);
  const smallest = smallestInjector(shop, loadMl);
  return {
    loadMl,
    loads: holdsEach ? firstFitDecreasing(sizes, injector.capacityMl).length : null,
    smaller: smallest && smallest.capacityMl < injector.capacityMl ? smallest : null,
  };
}

function loadOf(mould: Filled) {
  const cavities = Math.max(0, cavityCount(mould.layout) - mould.closed.length);
  return { cavities, partMl: partMlOf(mould), sprueMl: sprueMlOf(mould) };
}
