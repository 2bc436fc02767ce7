import { type Columns, goodCode } from '#calc/columns.ts';
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
export function scrapCheck(
  scrap: Pick<Scrap, 'massG' | 'isMeasured'>,
  weighedG: number,
  baitG: number,
): ScrapCheck | null {
  if (!scrap.isMeasured || baitG <= 0) return null;
  const offG = weighedG - scrap.massG;
  const tolerance = Math.max(toleranceG, toleranceShare * scrap.massG);
  if (Math.abs(offG) <= tolerance) return { kind: 'fits' };
  const baits = Math.max(1, Math.round(Math.abs(offG) / baitG));
  return { kind: offG > 0 ? 'more-thrown' : 'more-marked', baits };
}

/** What the sessions whose bad baits were weighed say together of the marking. */
export interface ScrapSaid {
  /** Sessions of which the scale can tell anything. */
  sessions: number;
  fit: number;
  /** Sessions in which more was thrown than marked, and about how many baits that was. */
  moreThrown: number;
  baits: number;
  moreMarked: number;
}

/** The marking of all sessions that were weighed, by their digests. */
export function scrapSaid(columns: readonly Columns[]): ScrapSaid {
  const said: ScrapSaid = { sessions: 0, fit: 0, moreThrown: 0, baits: 0, moreMarked: 0 };
  for (const { scrap } of columns) {
    const check = scrap ? checkOf(scrap) : null;
    if (!check) continue;
    said.sessions += 1;
    if (check.kind === 'fits') said.fit += 1;
    else if (check.kind === 'more-marked') said.moreMarked += 1;
    else {
      said.moreThrown += 1;
      said.baits += check.baits;
    }
  }
  return said;
}

/** What a session's own scale says of its marking; null: not weighed, or nothing to hold it against. */
export function checkOf(scrap: Scrap): ScrapCheck | null {
  const { weighedG, massG, bad } = scrap;
  return weighedG === null || bad === 0 ? null : scrapCheck(scrap, weighedG, massG / bad);
}

/**
 * The good baits of a session if all that was thrown beyond the marked had been taken for good: the
 * least that the scale leaves. `null` where it finds no more than marked.
 */
export function goodByScale({
  cells,
  scrap,
}: Pick<Columns, 'cells' | 'scrap'>): { good: number; counted: number } | null {
  const check = scrap ? checkOf(scrap) : null;
  if (check?.kind !== 'more-thrown') return null;
  const counted = cells.filter((code) => code === goodCode).length;
  return { good: Math.max(0, counted - check.baits), counted };
}
