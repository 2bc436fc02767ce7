import { useEffect, useRef, useState } from 'preact/hooks';
import { cameDue } from '#calc/came-due.ts';
import type { Table } from '#calc/table.ts';
import { useShop } from '#live/shop.ts';
import type { SessionId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { readyWords } from '#screens/table/return-words.ts';
import { sentNews } from '#store/sent-mix-in.ts';

/** How long the line about moulds that came ready stays. */
const lineMs = 10_000;
/** Away for longer than this, the session may be over. */
const longAwayMs = 30 * 60_000;

/** What somebody finds who comes back to the table. */
export interface Return {
  /** What came ready meanwhile, else that a mix was sent; null: nothing, or it has been told. */
  news: string | null;
  /** Whether it is asked if the pouring goes on. */
  isAsking: boolean;
  carryOn: () => void;
}

interface Back {
  at: Instant;
  news: string | null;
  /** The last entry then: another one answers the question. */
  lastAt: Instant;
  isAsking: boolean;
}

/** When a table was last in sight of this page. */
let lastSeen: { sessionId: SessionId | null; at: Instant } | null = null;

/** Looks what happened while the table was out of sight: asleep, behind a call, left, or killed. */
export function useReturn(table: Table, now: Instant): Return {
  const { clock } = useShop();
  const [back, setBack] = useState<Back | null>(null);
  const latest = useRef(table);
  latest.current = table;
  const { sessionId } = table;

  useEffect(() => {
    const leave = () => {
      lastSeen = { sessionId, at: clock.now() };
    };
    const comeBack = () => {
      const { lastAt } = latest.current;
      const seenAt = lastSeen?.sessionId === sessionId ? lastSeen.at : 0;
      const from = Math.max(lastAt, seenAt);
      const at = clock.now();
      setBack((before) => ({
        at,
        news: readyWords(cameDue(latest.current, from, at), at) ?? sentNews(),
        lastAt,
        // Nobody has answered yet: a short look away is no answer.
        isAsking: clock.realMs(at - from) > longAwayMs || isStillAsking(before, lastAt),
      }));
    };
    const look = () => (document.visibilityState === 'hidden' ? leave() : comeBack());
    comeBack();
    document.addEventListener('visibilitychange', look);
    return () => {
      document.removeEventListener('visibilitychange', look);
      leave();
    };
  }, [clock, sessionId]);

  const isFresh = back !== null && clock.realMs(now - back.at) < lineMs;
  return {
    news: isFresh ? back.news : null,
    isAsking: isStillAsking(back, table.lastAt),
    carryOn: () => setBack(null),
  };
}

function isStillAsking(back: Back | null, lastAt: Instant): boolean {
  return back?.isAsking === true && back.lastAt === lastAt;
}
