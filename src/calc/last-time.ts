import type { Columns } from '#calc/columns.ts';
import type { MouldId } from '#model/mould.ts';

/**
 * What was left in a pot the last time somebody told, mL: of a pot that one of these moulds was poured
 * from, else of any; null: nobody ever did. Sessions come newest first, as for all sums here.
 */
export function lastLeftMl(
  newest: readonly Columns[],
  mouldIds: readonly MouldId[],
): number | null {
  const runs = newest.flatMap(({ runs = [] }) => runs.toReversed());
  const own = runs.find(({ pours }) => pours.some(({ mouldId }) => mouldIds.includes(mouldId)));
  return (own ?? runs[0])?.leftMl ?? null;
}

/** What the bad baits of a session weighed the last time somebody put them on a scale, g; null: never. */
export function lastScrapG(newest: readonly Columns[]): number | null {
  for (const { scrap } of newest) if (scrap?.weighedG != null) return scrap.weighedG;
  return null;
}

/** How long a mould stayed shut the last time that is known, s; null: never. */
export function lastOpenSec(newest: readonly Columns[], mouldId: MouldId): number | null {
  for (const { moulds, mould, openSec } of newest) {
    const index = moulds.findIndex((one) => one.mouldId === mouldId);
    if (index === -1) continue;
    for (let shot = mould.length - 1; shot >= 0; shot--) {
      const sec = openSec[shot] ?? 0;
      if (mould[shot] === index && sec > 0) return sec;
    }
  }
  return null;
}
