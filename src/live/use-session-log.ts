import { useEffect, useRef, useState } from 'preact/hooks';
import { confirm, refuse } from '#live/answer.ts';
import { OnTheWay } from '#live/on-the-way.ts';
import { useShop } from '#live/shop.ts';
import { unsavedOf } from '#live/unsaved.ts';
import { useLive } from '#live/use-live.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { Book } from '#store/book.ts';
import { newEntry, type Says } from '#store/entries.ts';
import { runningEntries } from '#store/running.ts';

/** The running session as the table writes and reads it. */
export interface SessionLog {
  sessionId: SessionId;
  entries: readonly Entry[];
  /** How many entries are kept in memory because the device would not store them. */
  unsaved: number;
  /**
   * Writes one press. The answer to the hand comes when it is on disk; it never throws. What may not
   * stand in the log is refused: the hand is told, nothing else changes. So is what fills a mould or opens a
   * shot a second time before the table knows of the first.
   */
  write: (says: Says) => Promise<void>;
  /** Tries to store what is kept in memory. True when nothing is left. */
  settle: () => Promise<boolean>;
}

/**
 * The running session; undefined while it is looked up, null when none runs. Entries that cannot be
 * stored are kept, counted and tried again.
 */
export function useSessionLog(): SessionLog | null | undefined {
  const shop = useShop();
  const { book, clock } = shop;
  const stored = useLive(() => runningNow(book), ['entries', 'sealed'], 'running');
  const unsaved = unsavedOf(book, clock);
  const [, setTurn] = useState({});
  const onTheWay = useRef(new OnTheWay());
  useEffect(() => unsaved.hear(() => setTurn({})), [unsaved]);

  const sessionId = stored?.[0]?.sessionId;
  if (stored === undefined) return undefined;
  if (!sessionId) return null;

  async function write(says: Says) {
    if (!sessionId) return;
    const press = onTheWay.current.begin(says, entries, clock);
    if (!press) return refuse(shop);
    const entry = await newEntry(book, sessionId, says, press.at).catch(() => null);
    if (entry) press.id = entry.id;
    if (entry && (await unsaved.store(entry))) confirm(shop);
    else refuse(shop);
  }

  const isOwn = (entry: Entry) => entry.sessionId === sessionId;
  const waiting = unsaved.waiting().filter(isOwn);
  const entries = [...stored, ...unsaved.settled().filter(isOwn), ...waiting];
  return {
    sessionId,
    entries,
    unsaved: waiting.length,
    write,
    settle: unsaved.tryAgain,
  };
}

/**
 * The entries of the session that runs; null: none. A press that came to disk after the end of its
 * session, as of a window that had not heard of it, is taken into the session that has ended.
 */
export async function runningNow(book: Book): Promise<Entry[] | null> {
  const entries = await runningEntries(book);
  const [first] = entries ?? [];
  if (!first || entries?.some(({ said }) => said.kind === 'session-begun')) return entries;
  const { takeInStrays } = await import('#store/sessions.ts');
  return (await takeInStrays(book, first.sessionId)) ? await runningNow(book) : entries;
}
