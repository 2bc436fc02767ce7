import { wholeFrom } from '#calc/counts.ts';
import { positive } from '#calc/range.ts';

/** Loads that hold all sizes, and whether fewer are known to be impossible. */
export interface Packing {
  loads: number;
  exact: boolean;
  /** The sizes in each load. */
  bins: number[][];
}

/** A load may exceed the limit by the rounding of its sum. */
const ROUNDING = 1e-9;

/**
 * Loads by taking the largest first into the first load that still holds it (first-fit decreasing).
 * RangeError for a size not above 0 or above the limit.
 */
export function firstFitDecreasing(sizes: readonly number[], cap: number): number[][] {
  const bins: Bin[] = [];
  for (const size of checkedSizes(sizes, cap)) {
    const bin = bins.find(({ free }) => fits(size, free, cap));
    if (bin === undefined) bins.push({ free: cap - size, sizes: [size] });
    else {
      bin.free -= size;
      bin.sizes.push(size);
    }
  }
  return bins.map((bin) => bin.sizes);
}

/**
 * Loads that are needed at least: bound L2 of Martello and Toth 1990.
 * RangeError for a size not above 0 or above the limit.
 */
export function loadsBound(sizes: readonly number[], cap: number): number {
  const all = checkedSizes(sizes, cap);
  const small = new Set([0, ...all.filter((size) => size <= cap / 2)]);
  let bound = 0;
  for (const least of small) bound = Math.max(bound, boundAt(all, cap, least));
  return bound;
}

/**
 * The fewest loads: branch and bound from first-fit decreasing down to the bound, exact unless
 * `nodeLimit` steps were not enough. Null when one size is larger than a load.
 * RangeError for a size or limit that is not above 0.
 */
export function fewestLoads(
  sizes: readonly number[],
  cap: number,
  nodeLimit = 100_000,
): Packing | null {
  wholeFrom(0, 'nodeLimit', nodeLimit);
  positive('cap', cap);
  if (sizes.some((size) => !fits(positive('sizes', size), cap, cap))) return null;
  let bins = firstFitDecreasing(sizes, cap);
  const bound = loadsBound(sizes, cap);
  const search = { nodes: nodeLimit };
  while (bins.length > bound) {
    const fewer = packedInto(bins.length - 1, sizes, cap, search);
    if (fewer === null) break;
    bins = fewer;
  }
  return { loads: bins.length, exact: bins.length === bound || search.nodes > 0, bins };
}

/** The sizes in so many loads, or null when none was found before the nodes ran out. */
function packedInto(
  count: number,
  sizes: readonly number[],
  cap: number,
  search: { nodes: number },
): number[][] | null {
  const order = checkedSizes(sizes, cap);
  const bins = Array.from({ length: count }, (): Bin => ({ free: cap, sizes: [] }));
  let spare = count * cap;
  for (const size of order) spare -= size;
  return isPlaced(0, { order, bins, cap, spare, search }) ? bins.map((bin) => bin.sizes) : null;
}

interface Bin {
  free: number;
  sizes: number[];
}

interface Attempt {
  /** From the largest to the smallest. */
  order: readonly number[];
  bins: readonly Bin[];
  cap: number;
  /** Room that may stay empty in all loads together. */
  spare: number;
  search: { nodes: number };
}

/** Whether all sizes from this one on found a place; the bins then hold them. */
function isPlaced(at: number, attempt: Attempt): boolean {
  const { order, bins, cap, search } = attempt;
  const size = order[at];
  if (size === undefined) return true;
  if (search.nodes <= 0 || isTooMuchLost(attempt)) return false;
  search.nodes -= 1;
  let triedFree = Number.NaN;
  for (const bin of bins.toSorted((a, b) => a.free - b.free)) {
    const before = bin.free;
    if (!fits(size, before, cap) || before === triedFree) continue;
    triedFree = before;
    bin.free -= size;
    bin.sizes.push(size);
    if (isPlaced(at + 1, attempt)) return true;
    bin.sizes.pop();
    bin.free = before;
    // Nothing is gained by keeping a gap open that this size fills to the brim.
    if (Math.abs(before - size) <= ROUNDING * cap) return false;
  }
  return false;
}

/** Whether the gaps that not even the smallest size fits are more than can be spared. */
function isTooMuchLost({ order, bins, cap, spare }: Attempt): boolean {
  const smallest = order.at(-1) ?? cap;
  let lost = 0;
  for (const { free } of bins) if (!fits(smallest, free, cap)) lost += free;
  return lost > spare + ROUNDING * cap;
}

function boundAt(sizes: readonly number[], cap: number, least: number): number {
  let [alone, half, halfSum, smallSum] = [0, 0, 0, 0];
  for (const size of sizes) {
    if (size > cap - least) alone += 1;
    else if (size > cap / 2) {
      half += 1;
      halfSum += size;
    } else if (size >= least) smallSum += size;
  }
  const beside = half * cap - halfSum;
  return alone + half + Math.max(0, Math.ceil((smallSum - beside) / cap - ROUNDING));
}

function fits(size: number, free: number, cap: number): boolean {
  return size <= free + ROUNDING * cap;
}

/** The sizes from the largest down, or a RangeError for one that no load holds. */
function checkedSizes(sizes: readonly number[], cap: number): number[] {
  positive('cap', cap);
  for (const size of sizes) {
    if (!fits(positive('sizes', size), cap, cap)) {
      throw new RangeError(`A size of ${size} does not fit a load of ${cap}.`);
    }
  }
  return sizes.toSorted((a, b) => b - a);
}
