import { dayOf, instantOf } from '#calc/days.ts';
import type { Instant } from '#model/schemas.ts';

const dayMs = 86_400_000;

/**
 * The instant nearest to `at` at which a zone's clocks show `20:46`, so that an evening may run past
 * midnight; null when the text is no clock time.
 */
export function instantNear(clock: string, at: Instant, zone: string): Instant | null {
  const found = [at - dayMs, at, at + dayMs].flatMap(
    (near) => instantOf(dayOf(near, zone), clock, zone) ?? [],
  );
  const [nearest] = found.sort((a, b) => Math.abs(a - at) - Math.abs(b - at));
  return nearest ?? null;
}
