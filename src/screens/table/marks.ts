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
  const size = pictureSize(mould.layout);
  const across = Math.ceil((view.isTurned ? size.rows : size.cols) / view.cols);
  const bad = Array.from({ length: view.parts }, () => 0);
  for (const spot of spotsOf(mould.layout, mould.opens)) {
    const row = view.isTurned ? size.cols - spot.col : spot.row - 1;
    const col = view.isTurned ? spot.row - 1 : spot.col - 1;
    const part = Math.floor(row / view.rows) * across + Math.floor(col / view.cols);
    const result = results[spot.cavity - 1];
    if (result !== undefined && isBad(result)) bad[part] = (bad[part] ?? 0) + 1;
  }
  const halves = across === 1 ? ['Top half', 'Lower half'] : ['Left half', 'Right half'];
  return bad.map((count, index) => ({
    word: view.parts === 2 ? (halves[index] ?? '') : `Part ${index + 1}`,
    bad: count,
  }));
}

function isBad(result: Result): boolean {
  return result !== 'good' && result !== 'closed' && result !== 'not-checked';
}
