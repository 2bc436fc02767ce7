import { useState } from 'preact/hooks';
import { refuse } from '#live/answer.ts';
import { inTime } from '#live/in-time.ts';
import { useShop } from '#live/shop.ts';
import type { SessionLog } from '#live/use-session-log.ts';
import type { Instant } from '#model/schemas.ts';
import { leaveTable } from '#screens/table/leave.ts';
import { useIsHere } from '#ui/use-is-here.ts';

/** Sealing a long evening takes its time; without an answer for so long it counts as not stored. */
const patienceMs = 10_000;

/** Ends the session, and whether its end could not be stored: true until the next press. */
export function useFinish(log: SessionLog): { finish: (at?: Instant) => void; isStuck: boolean } {
  const shop = useShop();
  const isHere = useIsHere();
  const [stuckAt, setStuckAt] = useState<number | null>(null);
  const pressed = log.entries.length;
  async function end(at: Instant) {
    // What waits in memory belongs into the session before it is sealed.
    if (!(await log.settle())) throw new Error('The log is not whole yet.');
    const { endSession } = await import('#store/sessions.ts');
    await endSession(shop.book, log.sessionId, at);
  }
  async function finish(at: Instant) {
    if (await inTime(shop.clock, end(at), patienceMs)) {
      // Where the end was heard of before, Pour is there already, and the hand may have gone on from it.
      if (isHere.current) leaveTable();
      return;
    }
    setStuckAt(pressed);
    refuse(shop);
  }
  return {
    finish: (at = shop.clock.now()) => void finish(at),
    isStuck: stuckAt === pressed,
  };
}
