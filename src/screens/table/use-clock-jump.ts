import { useEffect, useRef, useState } from 'preact/hooks';
import type { Table } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import type { Said } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { spanWords } from '#screens/words.ts';

/** A wall clock that is further off than this was turned. */
const jumpMs = 60_000;
/** How long it is said at the least. */
const leastMs = 10_000;

export const jumpWords = 'Phone clock jumped. Times near here may be off.';

/**
 * Notices a phone clock that is turned while the table is in sight, and leaves a note in the log. True
 * while it should be said: for ten seconds, and until the next press.
 */
export function useClockJump(table: Table, now: Instant, say: (said: Said) => void): boolean {
  const { clock } = useShop();
  const [toldAt, setToldAt] = useState<Instant | null>(null);
  const toldMs = useRef(0);
  const byMs = clock.jumpMs();
  const isNew = Math.abs(byMs - toldMs.current) > jumpMs;
  useEffect(() => {
    if (!isNew) return;
    const turnedMs = byMs - toldMs.current;
    toldMs.current = byMs;
    // Once the page was out of sight the wall clock counts again, and the turn is forgotten.
    if (Math.abs(byMs) <= jumpMs) return;
    setToldAt(now);
    const way = turnedMs > 0 ? 'on' : 'back';
    const text = `Phone clock turned ${way} by ${spanWords(Math.abs(turnedMs))}. Times near here may be off.`;
    say({ kind: 'noted', text });
  }, [isNew, byMs]);
  if (toldAt === null) return false;
  return clock.realMs(now - toldAt) < leastMs || table.lastAt < toldAt + 1_000;
}
