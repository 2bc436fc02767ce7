import { standingOf } from '#calc/log.ts';
import { type SessionUse, unpackedUses, usesOf } from '#calc/used.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { Material, MaterialId } from '#model/material.ts';
import type { Movement, MovementId } from '#model/movement.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, freshId, pennedMeta, stampOf } from '#store/book.ts';
import { checked } from '#store/door.ts';
import { announce } from '#store/notice.ts';
import { whole } from '#store/whole.ts';

/** What moves a material's stock, besides what sessions pour. */
export type Moves = Exclude<Movement['says'], { kind: 'taken-back' }>;

/** Everything that levels and prices are worked out from. */
export interface Shelf {
  /** All that are not deleted, oldest first. */
  materials: Material[];
  movements: Movement[];
  /** What sessions took, ended ones and those that run. */
  uses: SessionUse[];
}

/**
 * Writes one line of the stock journal. `at` is when it happened, `writtenAt` when it is written
 * down. Resolves once it is on disk. Throws a ZodError for what may not exist.
 */
export async function moveStock(
  book: Book,
  materialId: MaterialId,
  says: Moves,
  written: { at: Instant; writtenAt: Instant; note: string },
): Promise<Movement> {
  return await putMovement(book, materialId, says, written);
}

/**
 * Takes a movement back; it stays in the journal and counts no more. Taking the taking back back
 * brings it again.
 */
export async function takeBackMovement(
  book: Book,
  target: Pick<Movement, 'id' | 'materialId'>,
  at: Instant,
): Promise<Movement> {
  const says = { kind: 'taken-back', target: target.id } as const;
  return await putMovement(book, target.materialId, says, { at, writtenAt: at, note: '' });
}

/** Puts movements of another copy of the journal beside these. The same ones twice change nothing. */
export async function mergeMovements(book: Book, movements: readonly Movement[]): Promise<void> {
  const safe = await Promise.all(movements.map((movement) => checked('movements', movement)));
  const tx = book.db.transaction('movements', 'readwrite', { durability: 'strict' });
  await whole(
    tx,
    safe.map((movement) => () => tx.store.put(movement)),
  );
  announce('movements');
}

/** All of the shelf in one look, so that a session which ends meanwhile is not counted twice. */
export async function shelfOf(book: Book): Promise<Shelf> {
  const stores = ['materials', 'movements', 'columns', 'entries'] as const;
  const tx = book.db.transaction(stores);
  const [materials, movements, columns, entries] = await Promise.all([
    tx.objectStore('materials').getAll(),
    tx.objectStore('movements').getAll(),
    tx.objectStore('columns').getAll(),
    tx.objectStore('entries').getAll(),
  ]);
  const running = bySession(entries);
  const ended = columns.filter(({ sessionId }) => !running.has(sessionId));
  return {
    materials: materials
      .filter(({ deletedAt }) => deletedAt === null)
      .sort((a, b) => a.createdAt - b.createdAt || (a.id < b.id ? -1 : 1)),
    movements,
    uses: [...ended.flatMap(unpackedUses), ...[...running].flatMap(runningUses)],
  };
}

/** The movements of one material, those that were taken back too, in the order of their time. */
export async function movementsOf(book: Book, materialId: MaterialId): Promise<Movement[]> {
  const range = IDBKeyRange.bound([materialId], [materialId, []]);
  return await book.db.getAll('movements', range);
}

/** The tables that a shelf is read from. */
export const shelfTables = ['materials', 'movements', 'columns', 'entries'] as const;

async function putMovement(
  book: Book,
  materialId: MaterialId,
  says: Movement['says'],
  { at, writtenAt, note }: { at: Instant; writtenAt: Instant; note: string },
): Promise<Movement> {
  const movement = await checked('movements', {
    id: freshId<MovementId>(writtenAt),
    materialId,
    at,
    writtenAt,
    stamp: stampOf(book, writtenAt),
    device: book.device,
    says,
    note,
  });
  const tx = book.db.transaction(['movements', 'meta'], 'readwrite', { durability: 'strict' });
  await whole(tx, [
    () => tx.objectStore('movements').put(movement),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce('movements');
  return movement;
}

function bySession(entries: readonly Entry[]): Map<SessionId, Entry[]> {
  const sessions = new Map<SessionId, Entry[]>();
  for (const entry of entries) {
    const own = sessions.get(entry.sessionId);
    if (own) own.push(entry);
    else sessions.set(entry.sessionId, [entry]);
  }
  return sessions;
}

function runningUses([sessionId, entries]: readonly [SessionId, Entry[]]): SessionUse[] {
  return usesOf(standingOf(entries)).map((use) => ({ ...use, sessionId }));
}
