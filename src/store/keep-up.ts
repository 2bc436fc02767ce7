import type { Instant } from '#model/schemas.ts';
import { checkLogbook } from '#store/check.ts';
import { type Db, openDatabase, type Table } from '#store/db.ts';
import type { Findings } from '#store/findings.ts';
import type { Held } from '#store/held.ts';
import { blankJournal, type Drawer, openJournal, rewrite, wantsRewrite } from '#store/journal.ts';
import { type Copy, catchUp, heldIn, heldInCopy, keptTables, picturesIn } from '#store/keeping.ts';
import { ladder } from '#store/ladder.ts';
import { layAside } from '#store/lay-aside.ts';
import { subscribe } from '#store/notice.ts';
import { isFull } from '#store/room.ts';

/** What the keeper of the second copy tells. */
export type KeeperNews =
  | { news: 'held'; held: Held; isTight: boolean }
  | {
      news: 'checked';
      /** What the database held before anything was put back, and now. */
      before: Held;
      held: Held;
      findings: Findings;
      /** What the second copy holds; null: this device keeps none. */
      copy: Held | null;
      /** True when the second copy was begun anew. */
      isFresh: boolean;
      /** True while the device is full: the log of a session goes first, the copy waits. */
      isTight: boolean;
    }
  | { news: 'failed'; why: 'full' | 'newer' | 'other'; detail: string };

/** What the keeper needs of the device. */
export interface KeeperMeans {
  openDrawer: () => Promise<Drawer>;
  /** Runs while no other window runs one of this name. */
  inTurn: <T>(name: string, act: () => Promise<T>) => Promise<T>;
  now: () => Instant;
}

/** Keeps the second copy of one logbook. */
export interface Keeper {
  /** Looks through everything, puts back what is missing and catches up. */
  check(): Promise<void>;
  /** What the second copy holds; null: there is none. Writes nothing. */
  look(): Promise<Held | null>;
  /** Throws the second copy away. */
  forget(): Promise<void>;
  /** Frees the reserve for the log of a session; false: it was gone already. */
  makeRoom(): Promise<boolean>;
  /** The same, but only where a file finds no room: a database breaks for other reasons too. */
  makeRoomIfFull(): Promise<boolean>;
  /** Whether there is room for more than the log: a device that was full is looked at again. */
  hasRoom(): Promise<boolean>;
  /** Follows no more writes. */
  stop(): void;
}

/** Their writes change how many photos have a picture. */
const pictureTables: ReadonlySet<Table> = new Set(['photos', 'photo-bytes']);

const reserveName = 'reserve';
/** Room for some 3,000 shots. */
const reserveBytes = 2 * 1024 * 1024;
/** A device that has not even this much left is full. */
const probeBytes = 512 * 1024;

/**
 * Keeps the second copy of the logbook `name`: after every write that is announced, in any window,
 * it writes what it does not have yet. It never stands between a press and its answer.
 */
export function keepUp(name: string, means: KeeperMeans, tell: (news: KeeperNews) => void): Keeper {
  const journal = blankJournal();
  const waiting = new Set<Table>();
  let db: Db | null = null;
  /** The reserve was needed or cannot be laid aside: the log comes first, the copy waits. */
  let isTight = false;
  /** Before the first look, what is not in the database may have been lost by it. */
  let wasChecked = false;
  /** Counted when photos were written, not at every press. */
  let pictures: Awaited<ReturnType<typeof picturesIn>> | null = null;
  /** Once there was no room for a second file, the first goes on until the next start. */
  let hasRoomForTwo = true;

  function close(): void {
    db?.close();
    db = null;
    // What is opened next may be another, empty one.
    wasChecked = false;
  }

  async function connection(): Promise<Db> {
    db ??= await openDatabase(name, { onMadeWay: close, onLost: close });
    return db;
  }

  async function withCopy<T>(act: (copy: Copy, drawer: Drawer | null) => Promise<T>): Promise<T> {
    return await means.inTurn(`${name}-copy`, async () => {
      const drawer = await means.openDrawer().catch(() => null);
      let paper = drawer && (await openJournal(journal, drawer));
      try {
        if (journal.newest > ladder.length) throw new DOMException('Newer.', 'VersionError');
        if (drawer && paper && !isTight && hasRoomForTwo && wantsRewrite(journal, paper)) {
          paper = await rewrite(journal, paper, drawer).catch((error: unknown) => {
            if (!isFull(error)) throw error;
            hasRoomForTwo = false;
            return paper;
          });
        }
        return await act({ db: await connection(), journal, paper }, drawer);
      } finally {
        paper?.close();
      }
    });
  }

  function failed(error: unknown): void {
    // A file that finds no room says nothing of the database; any other fault may be its own.
    if (!(error instanceof DOMException && error.name === 'QuotaExceededError')) close();
    const isNewer = error instanceof DOMException && error.name === 'VersionError';
    const why = isNewer ? 'newer' : isFull(error) ? 'full' : 'other';
    if (why === 'full') isTight = true;
    tell({ news: 'failed', why, detail: String(error) });
  }

  /** Laying the reserve aside fills all that is left for a moment: not while shots need that room. */
  async function isStillTight(logbook: Db, drawer: Drawer | null): Promise<boolean> {
    if (!drawer || (await drawer.names()).includes(reserveName)) return false;
    if (isTight && (await logbook.count('entries')) > 0) return true;
    return !(await layAside(drawer, reserveName, reserveBytes));
  }

  async function freed(isSure: boolean): Promise<boolean> {
    return await means.inTurn(`${name}-room`, async () => {
      const drawer = await means.openDrawer().catch(() => null);
      if (!drawer || !(await drawer.names()).includes(reserveName)) return false;
      if (!isSure && (await layAside(drawer, 'probe', probeBytes))) {
        await drawer.remove('probe');
        return false;
      }
      isTight = true;
      await drawer.remove(reserveName);
      tell({ news: 'failed', why: 'full', detail: 'The reserve is in use.' });
      return true;
    });
  }

  let last: Promise<unknown> = Promise.resolve();
  /** One after the other, in the order they were asked for. */
  function next<T>(act: () => Promise<T>): Promise<T> {
    const turn = last.then(act);
    last = turn.catch(() => {});
    return turn;
  }

  async function note(): Promise<void> {
    const tables = [...waiting];
    waiting.clear();
    if (tables.length === 0) return;
    if (!wasChecked) return await lookThrough();
    await noteIn(tables);
  }

  /** The copy hears of them once it can. */
  function owe(tables: readonly Table[]): void {
    for (const table of tables) waiting.add(table);
  }
  const owing = (tables: readonly Table[]) => (error: unknown) => {
    owe(tables);
    throw error;
  };

  async function noteIn(tables: readonly Table[]): Promise<void> {
    await withCopy(async (copy, drawer) => {
      if (isTight) isTight = await isStillTight(copy.db, drawer);
      if (!isTight) await catchUp(copy, tables, wasChecked);
      else owe(tables);
      const isWhole = copy.paper && !isTight;
      if (!pictures || tables.some((table) => pictureTables.has(table))) {
        pictures = await picturesIn(copy.db);
      }
      const held = isWhole ? { ...heldInCopy(journal), ...pictures } : await heldIn(copy.db);
      tell({ news: 'held', held, isTight });
    }).catch(owing(tables));
  }

  async function lookThrough(): Promise<void> {
    await withCopy(async (copy, drawer) => {
      const before = await heldIn(copy.db);
      const isFresh = copy.paper !== null && heldInCopy(journal).records === 0;
      const findings = await checkLogbook(copy, means.now());
      wasChecked = true;
      isTight = await isStillTight(copy.db, drawer);
      if (!isTight) await catchUp(copy, keptTables);
      else owe(keptTables);
      tell({
        news: 'checked',
        before,
        held: await heldIn(copy.db),
        findings,
        copy: copy.paper && heldInCopy(journal),
        isFresh,
        isTight,
      });
    }).catch(owing(keptTables));
  }

  const stop = subscribe((tables) => {
    const news = tables.filter((table) => keptTables.includes(table) || pictureTables.has(table));
    if (news.length === 0) return;
    for (const table of news) waiting.add(table);
    // What could not be written is told, and written with the next one or at the next start.
    void next(note).catch(failed);
  });

  return {
    stop,
    check: () => next(lookThrough).catch(failed),
    look: () =>
      next(() =>
        means.inTurn(`${name}-copy`, async () => {
          const drawer = await means.openDrawer().catch(() => null);
          if (!drawer) return null;
          (await openJournal(journal, drawer)).close();
          const held = heldInCopy(journal);
          return held.records > 0 ? held : null;
        }),
      ),
    forget: () =>
      next(() =>
        means.inTurn(`${name}-copy`, async () => {
          const drawer = await means.openDrawer().catch(() => null);
          for (const file of (await drawer?.names()) ?? []) await drawer?.remove(file);
          Object.assign(journal, blankJournal());
        }),
      ),
    hasRoom: () =>
      next(async () => {
        if (!isTight) return true;
        const tables = [...waiting];
        waiting.clear();
        await noteIn(tables);
        return !isTight;
      }),
    // Not in the queue: a hand waits for it.
    makeRoom: () => freed(true),
    makeRoomIfFull: () => freed(false),
  };
}
