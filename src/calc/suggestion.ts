import type { Instant } from '#model/schemas.ts';

/** A colour that could be poured. */
export interface Pourable<Id> {
  id: Id;
  name: string;
  /** Null: it was never poured. */
  lastAt: Instant | null;
  /** How often it was poured. */
  times: number;
  /** True when everything in its mix is on hand. */
  isOnHand: boolean;
}

/** A colour that was poured nearer than this is not suggested, days (a working rule). */
const lately = 21;

/**
 * The colour of which all is on hand and that was not poured for the longest time; one that was
 * never poured comes first, then the one poured more often. Null: nothing is worth a line.
 */
export function suggestion<Id>(
  colours: readonly Pourable<Id>[],
  now: Instant,
): Pourable<Id> | null {
  const due = colours.filter(
    ({ lastAt, isOnHand }) => isOnHand && (lastAt === null || now - lastAt >= lately * 86_400_000),
  );
  const [first] = due.toSorted((a, b) => (a.lastAt ?? 0) - (b.lastAt ?? 0) || b.times - a.times);
  return first ?? null;
}
