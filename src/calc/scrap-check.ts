import type { Scrap } from '#calc/scrap.ts';

/** What weighed scrap says of the baits that were marked bad. */
export type ScrapCheck =
  | { kind: 'fits' }
  /** More was thrown away than marked, about so many baits. */
  | { kind: 'more-thrown'; baits: number }
  | { kind: 'more-marked'; baits: number };

/** Baits weigh alike to about a tenth, and the volume of one is known no better. Common practice. */
const toleranceShare = 0.2;
const toleranceG = 10;

/**
 * Weighed bad baits (sprues taken off) against those marked bad. `null` where no bait weight is
 * measured: an assumed one would prove nothing. A bait weighs what the marked ones weigh on average.
 */
export function scrapCheck(scrap: Scrap, weighedG: number, baitG: number): ScrapCheck | null {
  if (!scrap.isMeasured || baitG <= 0) return null;
  const offG = weighedG - scrap.massG;
  const tolerance = Math.max(toleranceG, toleranceShare * scrap.massG);
  if (Math.abs(offG) <= tolerance) return { kind: 'fits' };
  const baits = Math.max(1, Math.round(Math.abs(offG) / baitG));
  return { kind: offG > 0 ? 'more-thrown' : 'more-marked', baits };
}
