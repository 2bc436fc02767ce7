import { inTime } from '#live/in-time.ts';
import type { Entry } from '#model/entry.ts';
import type { Clock } from '#platform/clock.ts';
import type { Book } from '#store/book.ts';
import { putEntries } from '#store/entries.ts';

/** The entries of this window that the device would not store at once. */
export interface Unsaved {
  /** Those that are not known to be stored yet. */
  waiting(): readonly Entry[];
  /** Those that waited and are stored now: a table that has not been read anew does not miss them. */
  settled(): readonly Entry[];
  /** Calls back after every change, until the returned function is called. */
  hear(tell: () => void): () => void;
  /**
   * Stores an entry. True once it is on disk; false when it waits here instead, because the device
   * refused it or gave no answer for 0.9 s: the table says so within a second. It never rejects.
   */
  store(entry: Entry): Promise<boolean>;
  /** Tries to store all that waits. True when nothing is left. */
  tryAgain(): Promise<boolean>;
}

/** No answer for so long counts as a no; and so often it is tried again. */
const patienceMs = 900;
/** A try without an answer holds back the next one for so long. */
const stuckMs = 10_000;

const perBook = new WeakMap<Book, Unsaved>();

/**
 * What this window could not store of a logbook. It outlives the table: whoever leaves it for another
 * page loses nothing, and it is tried again every two seconds wherever they are.
 */
export function unsavedOf(book: Book, clock: Clock): Unsaved {
  const known = perBook.get(book);
  if (known) return known;
  const made = anUnsaved(book, clock);
  perBook.set(book, made);
  return made;
}

function anUnsaved(book: Book, clock: Clock): Unsaved {
  const hearers = new Set<() => void>();
  let waiting: readonly Entry[] = [];
  let settled: readonly Entry[] = [];
  let stopTrying: (() => void) | null = null;
  let trying: { at: number; end: Promise<boolean> } | null = null;
  const isOver = (from: number, ms: number) => clock.realMs(clock.now() - from) >= ms;

  function keep(entry: Entry): void {
    if (waiting.includes(entry)) return;
    waiting = [...waiting, entry];
    stopTrying ??= clock.every(patienceMs, () => void tryAgain());
    for (const tell of hearers) tell();
  }

  function letGo(entries: readonly Entry[]): void {
    const done = waiting.filter((entry) => entries.includes(entry));
    if (done.length === 0) return;
    waiting = waiting.filter((entry) => !done.includes(entry));
    settled = [...settled, ...done];
    if (waiting.length === 0) {
      stopTrying?.();
      stopTrying = null;
    }
    for (const tell of hearers) tell();
  }

  async function store(entry: Entry): Promise<boolean> {
    const work = putEntries(book, [entry]);
    if (await inTime(clock, work, patienceMs)) return true;
    keep(entry);
    // The answer may come after all.
    work.then(
      () => letGo([entry]),
      () => {},
    );
    return false;
  }

  /** One that is under way is waited for, unless it has given no answer for long. */
  async function tryAgain(): Promise<boolean> {
    if (waiting.length === 0) return true;
    if (trying && !isOver(trying.at, stuckMs)) return await trying.end;
    const now = { at: clock.now(), end: tryOnce(waiting) };
    trying = now;
    const isDone = await now.end;
    if (trying === now) trying = null;
    return isDone;
  }

  async function tryOnce(tried: readonly Entry[]): Promise<boolean> {
    try {
      // The session may have been ended meanwhile, in another window.
      const { putLate } = await import('#store/sessions.ts');
      await putLate(book, tried);
      letGo(tried);
    } catch {
      // They wait on, and are told.
    }
    return waiting.length === 0;
  }

  return {
    waiting: () => waiting,
    settled: () => settled,
    hear(tell) {
      hearers.add(tell);
      return () => hearers.delete(tell);
    },
    store,
    tryAgain,
  };
}
