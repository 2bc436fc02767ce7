import { linesOf, standingOf } from '#calc/log.ts';
import type { Right } from '#calc/rights.ts';
import { tableOf } from '#calc/table.ts';
import { heatOf } from '#calc/warmth.ts';
import type { Entry, EntryId, SessionId } from '#model/entry.ts';
import type { Mould, MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';
import type { SealedSession } from '#model/session.ts';
import { type Book, pennedMeta, seeStamp } from '#store/book.ts';
import { newEntry, putEntries, type Says } from '#store/entries.ts';
import { changedHead, headOf, overTheirs } from '#store/heads.ts';
import { announce } from '#store/notice.ts';
import { withReserve } from '#store/room.ts';
import { entriesOf, entriesRunning, rangeOf } from '#store/running.ts';
import { isUntouched, leave, sealedOf } from '#store/sealing.ts';
import { keepToldMixes } from '#store/told-mixes.ts';
import { toldWrites } from '#store/told-versions.ts';
import { whole } from '#store/whole.ts';

// What begins and reads a session is in the first load; what seals one comes after the first paint.
export { beginSession, entriesOf, runningEntries, sealedSessions } from '#store/running.ts';

/**
 * Ends the running session and seals it: its entries move into one record, with its columns beside
 * it, and what was closed or chosen at the table moves into the moulds. One transaction.
 */
export async function endSession(book: Book, sessionId: SessionId, at: Instant): Promise<void> {
  const entries = await entriesRunning(book, sessionId);
  if (entries.length === 0) throw new Error('This session is not running.');
  if (await takeInStrays(book, sessionId)) return;
  const ended = await newEntry(book, sessionId, { kind: 'session-ended' }, at);
  const all = [...entries, ended];
  const moulds = await mouldsAfter(book, all, at);
  const { sealed, columns } = await sealedOf(sessionId, all);
  const stores = ['entries', 'sealed', 'columns', 'drafts', 'moulds', 'meta'] as const;
  const isDone = await withReserve(async () => {
    const tx = book.db.transaction(stores, 'readwrite', { durability: 'strict' });
    const now = await tx.objectStore('entries').getAll(rangeOf(sessionId));
    if (!isUntouched(now, entries)) return await leave(tx);
    const told = await toldWrites(tx, [columns]);
    const heads = await overTheirs(tx.objectStore('moulds'), moulds);
    await whole(tx, [
      () => tx.objectStore('entries').delete(rangeOf(sessionId)),
      () => tx.objectStore('sealed').put(sealed),
      () => tx.objectStore('columns').put(columns),
      () => tx.objectStore('drafts').delete(sessionId),
      () => tx.objectStore('meta').put(pennedMeta(book)),
      ...told,
      ...heads.map((mould) => () => tx.objectStore('moulds').put(mould)),
    ]);
    return true;
  });
  // A line came in between: without it the session would be sealed too early.
  if (!isDone) return await endSession(book, sessionId, at);
  announce('entries', 'sealed', 'columns', 'drafts', 'moulds');
  await keepMixesIfItCan(book, all);
}

/** The versions that the device refused at the table. The log holds their doses, so that a second refusal loses nothing. */
async function keepMixesIfItCan(book: Book, entries: readonly Entry[]): Promise<void> {
  try {
    await keepToldMixes(book, entries);
  } catch {
    // The next mix that is begun, or the next end of a session, tries again.
  }
}

/** Opens an ended session again: its entries run, its end is taken back. */
export async function reopenSession(book: Book, sessionId: SessionId, at: Instant): Promise<void> {
  const sealed = await book.db.get('sealed', sessionId);
  if (!sealed) throw new Error('This session is not in the logbook.');
  seeStamp(book, sealed.entries.at(-1)?.stamp ?? null);
  const ends = linesOf(sealed.entries).filter(
    ({ said, takenBackAt }) => said.kind === 'session-ended' && takenBackAt === null,
  );
  const taken = await Promise.all(
    ends.map(({ id }) => newEntry(book, sessionId, { kind: 'taken-back', target: id }, at)),
  );
  const stores = ['entries', 'sealed', 'columns'] as const;
  const tx = book.db.transaction(stores, 'readwrite', { durability: 'strict' });
  const now = await tx.objectStore('sealed').get(sessionId);
  // Another hand was quicker: its lines must not be lost with the sealed record.
  if (!isUntouched(now?.entries, sealed.entries)) {
    await leave(tx);
    return await reopenSession(book, sessionId, at);
  }
  await whole(tx, [
    ...[...sealed.entries, ...taken].map((entry) => () => tx.objectStore('entries').put(entry)),
    () => tx.objectStore('sealed').delete(sessionId),
    () => tx.objectStore('columns').delete([sealed.startedAt, sessionId]),
  ]);
  announce('entries', 'sealed', 'columns');
}

/**
 * Takes entries that were written after the end of their session into it. False: there is no such
 * session, or nothing was left to do.
 */
export async function takeInStrays(book: Book, sessionId: SessionId): Promise<boolean> {
  const found = await book.db.get('sealed', sessionId);
  const strays = await entriesRunning(book, sessionId);
  if (!found || strays.length === 0) return false;
  await sealAnew(book, found, strays);
  return true;
}

/** Says what a line should have said, and when it happened; the line itself stays. */
export async function putRight(
  book: Book,
  sessionId: SessionId,
  right: Right,
  at: Instant,
): Promise<void> {
  await addToSession(book, sessionId, { kind: 'put-right', ...right }, at);
}

/** Puts several lines of a session right, all or none. */
export async function putAllRight(
  book: Book,
  sessionId: SessionId,
  rights: readonly Right[],
  at: Instant,
): Promise<void> {
  // Read first, so that these lines are later than all that is there.
  await entriesOf(book, sessionId);
  const entries: Entry[] = [];
  for (const right of rights) {
    entries.push(await newEntry(book, sessionId, { kind: 'put-right', ...right }, at));
  }
  await putLate(book, entries);
}

/** Takes a line back, at any age. Taking a taking-back back brings the line again. */
export async function takeBack(
  book: Book,
  sessionId: SessionId,
  target: EntryId,
  at: Instant,
): Promise<void> {
  await addToSession(book, sessionId, { kind: 'taken-back', target }, at);
}

/** Adds a line to a session that runs or has long ended; an ended one is sealed anew. */
export async function addToSession(
  book: Book,
  sessionId: SessionId,
  said: Says,
  at: Instant,
  happenedAt: Instant = at,
): Promise<void> {
  await entriesOf(book, sessionId);
  await putIntoSession(book, { ...(await newEntry(book, sessionId, said, at)), at: happenedAt });
}

/** Stores a line of a session that runs or has long ended; an ended one is sealed anew. */
export async function putIntoSession(book: Book, entry: Entry): Promise<void> {
  const sealed = await book.db.get('sealed', entry.sessionId);
  if (!sealed) return await putEntries(book, [entry]);
  await sealAnew(book, sealed, [entry]);
}

/**
 * Stores lines that were pressed at the table and could not be stored then; the session may have
 * been ended meanwhile.
 */
export async function putLate(book: Book, entries: readonly Entry[]): Promise<void> {
  for (const sessionId of new Set(entries.map((entry) => entry.sessionId))) {
    const own = entries.filter((entry) => entry.sessionId === sessionId);
    const sealed = await book.db.get('sealed', sessionId);
    if (sealed) await sealAnew(book, sealed, own);
    else await putEntries(book, own);
  }
}

async function sealAnew(
  book: Book,
  found: SealedSession,
  entries: readonly Entry[],
): Promise<void> {
  const next = await sealedOf(found.id, [...found.entries, ...entries]);
  const stores = ['entries', 'sealed', 'columns', 'meta'] as const;
  const isDone = await withReserve(async () => {
    const tx = book.db.transaction(stores, 'readwrite', { durability: 'strict' });
    const sealed = await tx.objectStore('sealed').get(found.id);
    if (!isUntouched(sealed?.entries, found.entries)) return await leave(tx);
    const told = await toldWrites(tx, [next.columns]);
    await whole(tx, [
      // One that was stored as of a running session is taken along.
      ...entries.map(
        ({ stamp, id }) =>
          () =>
            tx.objectStore('entries').delete([found.id, stamp, id]),
      ),
      () => tx.objectStore('sealed').put({ ...found, ...next.sealed }),
      () => tx.objectStore('columns').delete([found.startedAt, found.id]),
      () => tx.objectStore('columns').put(next.columns),
      () => tx.objectStore('meta').put(pennedMeta(book)),
      ...told,
    ]);
    return true;
  });
  if (isDone) {
    announce('entries', 'sealed', 'columns');
    return await keepMixesIfItCan(book, next.sealed.entries);
  }
  // Another hand was quicker: its lines must not be lost under these.
  await putLate(book, entries);
}

/**
 * The moulds with what was closed or chosen at the table, and with what thermometer readings taught. What the table left alone stays as it is
 * in the mould, which may have been changed at the desk meanwhile.
 */
async function mouldsAfter(book: Book, entries: readonly Entry[], at: Instant): Promise<Mould[]> {
  const lines = standingOf(entries);
  const touched = (kind: 'cavity-closed' | 'set-time-chosen', mouldId: MouldId) =>
    lines.some(({ said }) => said.kind === kind && said.mouldId === mouldId);
  const table = tableOf(entries);
  const after = table.allSeats.map(async (seat): Promise<Mould[]> => {
    const { mouldId, closed, setSec, hasNoClock } = seat.mould;
    const { tauSec, uptake } = heatOf(table, seat);
    const changes = {
      ...(seat.readings.length > 0 ? { heat: { tauSec, uptake } } : {}),
      ...(touched('cavity-closed', mouldId) ? { closed } : {}),
      ...(touched('set-time-chosen', mouldId) ? { setSec, hasNoClock } : {}),
    };
    const head = await headOf(book, 'moulds', mouldId);
    if (!head || Object.keys(changes).length === 0) return [];
    return [await changedHead(book, 'moulds', head, changes, at)];
  });
  return (await Promise.all(after)).flat();
}
