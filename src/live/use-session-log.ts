import { useEffect, useRef, useState } from 'preact/hooks';
import { confirm, refuse } from '#live/answer.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import { newEntry, putEntries, type Says } from '#store/entries.ts';
import { runningEntries } from '#store/running.ts';

/** The running session as the table writes and reads it. */
export interface SessionLog {
  sessionId: SessionId;
  entries: readonly Entry[];
  /** How many entries are kept in memory because the device would not store them. */
  unsaved: number;
  /**
   * Writes one press. The answer to the hand comes when it is on disk; it never throws. What may not
   * stand in the log is refused: the hand is told, nothing else changes.
   */
  write: (says: Says) => Promise<void>;
}

/**
 * The running session; undefined while it is looked up, null when none runs. Entries that cannot be
 * stored are kept, counted and tried again every two seconds.
 */
export function useSessionLog(): SessionLog | null | undefined {
  const shop = useShop();
  const { book, clock } = shop;
  const stored = useLive(() => runningEntries(book), ['entries', 'sealed'], 'running');
  const [kept, setKept] = useState<readonly Entry[]>([]);
  const keptNow = useRef(kept);
  keptNow.current = kept;

  useEffect(() => {
    if (kept.length === 0) return;
    return clock.every(2_000, () => {
      const tried = keptNow.current;
      putEntries(book, tried).then(
        () => setKept((now) => now.filter((entry) => !tried.includes(entry))),
        () => {},
      );
    });
  }, [book, clock, kept.length]);

  const sessionId = stored?.[0]?.sessionId;
  if (stored === undefined) return undefined;
  if (!sessionId) return null;

  async function write(says: Says) {
    if (!sessionId) return;
    const entry = await newEntry(book, sessionId, says, clock.now()).catch(() => null);
    if (!entry) return refuse(shop);
    try {
      await putEntries(book, [entry]);
      confirm(shop);
    } catch {
      setKept((now) => [...now, entry]);
      refuse(shop);
    }
  }

  const own = kept.filter((entry) => entry.sessionId === sessionId);
  return { sessionId, entries: [...stored, ...own], unsaved: own.length, write };
}
