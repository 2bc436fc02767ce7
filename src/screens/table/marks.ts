import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import type { MapView } from '#calc/map-view.ts';
import type { Result } from '#model/entry.ts';
import type { FrozenMould } from '#model/mould.ts';

/** Numbers of the cavities with a defect. */
export function badCavities(results: readonly Result[]): number[] {
  return results.flatMap((result, index) => (isBad(result) ? [index + 1] : []));
}

/** The marks with exactly the last shot's bad cavities and reasons, and nothing else bad. */
export function sameAsLast(results: readonly Result[], last: readonly Result[]): Result[] {
  return results.map((result, index) => {
    if (result === 'closed') return result;
    const before = last[index];
    if (before !== undefined && isBad(before)) return before;
    return isBad(result) ? 'good' : result;
  });
}

/** The marks with the cavities closed that are closed now; a cavity opened again was not looked at. */
export function withClosed(results: readonly Result[], closed: readonly number[]): Result[] {
  return results.map((result, index) => {
    if (closed.includes(index + 1)) return 'closed';
    return result === 'closed' ? 'not-checked' : result;
  });
}

/** A name for each part of a map and how many bad ones it holds. */
export function partWords(
  view: MapView,
  mould: FrozenMould,
  results: readonly Result[],
): { word: string; bad: number }[] {
  const bad = Array.from({ length: view.parts }, () => 0);
  for (const cavity of badCavities(results)) {
    const part = partWith(view, mould, cavity);
    bad[part] = (bad[part] ?? 0) + 1;
  }
  const halves =
    acrossOf(view, mould) === 1 ? ['Top half', 'Lower half'] : ['Left half', 'Right half'];
  return bad.map((count, index) => ({
    word: view.parts === 2 ? (halves[index] ?? '') : `Part ${index + 1}`,
    bad: count,
  }));
}

/** The part of a map on which a cavity lies, from 0. */
export function partWith(view: MapView, mould: FrozenMould, cavity: number): number {
  const size = pictureSize(mould.layout);
  const spot = spotsOf(mould.layout, mould.opens).find((one) => one.cavity === cavity);
  if (!spot) return 0;
  const row = view.isTurned ? size.cols - spot.col : spot.row - 1;
  const col = view.isTurned ? spot.row - 1 : spot.col - 1;
  return Math.floor(row / view.rows) * acrossOf(view, mould) + Math.floor(col / view.cols);
}

/** How many parts lie side by side. */
function acrossOf(view: MapView, mould: FrozenMould): number {
  const size = pictureSize(mould.layout);
  return Math.ceil((view.isTurned ? size.rows : size.cols) / view.cols);
}

function isBad(result: Result): boolean {
  return result !== 'good' && result !== 'closed' && result !== 'not-checked';
}
