import type { Table } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';
import type { Instant } from '#model/schemas.ts';

const hourMs = 3_600_000;
/** What counts as now: pouring is as fast as it was in the last half hour. */
const nowMs = hourMs / 2;
/** A shorter stretch says nothing: one round more or less would turn it over. */
const leastMs = hourMs / 6;
const tenMinutesMs = hourMs / 6;

/** How fast the pouring goes. */
export interface Pace {
  /** Shots filled in the session so far. */
  shots: number;
  /** Shots an hour, by the last half hour or what there is of it; null: too short to tell, or none. */
  shotsAnHour: number | null;
  /** Good baits at about an hour from now, at this pace; null: as above, or none of it was logged. */
  ahead: { good: number; at: Instant } | null;
}

/**
 * The pace of a session: shots filled, and good baits logged, in the last half hour. The moment told
 * ahead is a full ten minutes of the clock, at most an hour away. A plain rate, no forecast.
 */
export function paceOf(table: Table, now: Instant): Pace {
  const { shots } = table;
  const from = Math.max(now - nowMs, shots[0]?.filledAt ?? now);
  const hours = (now - from) / hourMs;
  const filled = shots.filter(({ filledAt }) => filledAt >= from && filledAt <= now).length;
  if (now - from < leastMs || filled === 0) {
    return { shots: shots.length, shotsAnHour: null, ahead: null };
  }
  const logged = shots.filter(({ loggedAt }) => loggedAt !== null);
  const goodOf = (some: typeof shots) => countOf(some.flatMap(({ results }) => results)).good;
  const fresh = goodOf(logged.filter(({ loggedAt }) => (loggedAt ?? 0) >= from));
  const at = Math.floor((now + hourMs) / tenMinutesMs) * tenMinutesMs;
  const good = Math.round(goodOf(logged) + ((fresh / hours) * (at - now)) / hourMs);
  return {
    shots: shots.length,
    shotsAnHour: Math.round(filled / hours),
    ahead: fresh > 0 ? { good, at } : null,
  };
}
