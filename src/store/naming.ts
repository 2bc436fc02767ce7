import { standingOf } from '#calc/log.ts';
import { mergedHead } from '#calc/merge.ts';
import { type Poured, pouredBy, pouredIn } from '#calc/poured-bait.ts';
import { lookOf, namedAs, type Right } from '#calc/rights.ts';
import { all } from '#calc/said.ts';
import { type Table, tableOf } from '#calc/table.ts';
import { mentionsIn } from '#calc/told-mixes.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix, MixId } from '#model/mix.ts';
import type { Photo, Remark } from '#model/photo.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, pennedMeta, seeStamps } from '#store/book.ts';
import { newEntry } from '#store/entries.ts';
import { changedHead, type FactsOf, headOf, newHead, overTheirs } from '#store/heads.ts';
import { announce } from '#store/notice.ts';
import { withReserve } from '#store/room.ts';
import { rangeOf } from '#store/running.ts';
import { isUntouched, leave, sealedOf } from '#store/sealing.ts';
import { sessionsTelling, toldWrites } from '#store/told-versions.ts';
import { whole } from '#store/whole.ts';

/** What a nameless mix is to be called, and how each of its sides looks: one, or A and B. */
export type Naming = Pick<FactsOf<'colourways'>, 'name' | 'sides'>;

/** A session that poured the mix: its entries as they were read, and those that put them right. */
interface Retold {
  sessionId: SessionId;
  before: readonly Entry[];
  added: Entry[];
}

/** Everything that a name changes, read and checked, not yet stored. */
interface Plan {
  colourway: Colourway;
  mix: Mix;
  photos: Photo[];
  remarks: Remark[];
  sessions: Retold[];
  /** As many photos and remarks as there were: one more may be of this mix. */
  counts: readonly [photos: number, remarks: number];
}

const tables = [
  'colourways',
  'mixes',
  'photos',
  'remarks',
  'entries',
  'sealed',
  'columns',
  'meta',
] as const;

/**
 * Gives a nameless mix a colour of its own, and its name. The pots that it went into are pots of that
 * colour then, its photos with their readings and ratings, its notes and the word on its balance too:
 * all in one transaction. Throws when it has a name already; nothing is written then.
 */
export async function nameMix(
  book: Book,
  mixId: MixId,
  named: Naming,
  at: Instant,
): Promise<Colourway> {
  while (true) {
    const plan = await planOf(book, mixId, named, at);
    if (await withReserve(() => keep(book, plan))) {
      announce(...tables.slice(0, -1));
      return plan.colourway;
    }
    // Another hand was quicker: what it wrote may belong to the mix as well.
  }
}

async function planOf(book: Book, mixId: MixId, named: Naming, at: Instant): Promise<Plan> {
  const mix = await headOf(book, 'mixes', mixId);
  if (!mix || mix.colourwayId !== null) throw new Error('This mix is named already.');
  const [photos, remarks] = await Promise.all([
    book.db.getAll('photos'),
    book.db.getAll('remarks'),
  ]);
  const colourway = await newHead(book, 'colourways', { facts: named, at });
  const sessions = await retoldOf(book, mix, colourway, at);
  const own = partsOf(mixId, sessions);
  const sides = mix.sides.map((side) => ({ ...side, ...lookOf(colourway, side.role) }));
  // What another phone has of a part comes later.
  const parts = [...own].filter((id) => id !== mixId);
  const facts = { colourwayId: colourway.id, sides, ...(parts.length > 0 ? { parts } : {}) };
  const next = await changedHead(book, 'mixes', mix, facts, at);
  const moved = new Map(sessions.map((one) => [one.sessionId, tableAfter(one)]));
  const plan: Plan = {
    colourway,
    mix: next,
    photos: [],
    remarks: [],
    sessions,
    counts: [photos.length, remarks.length],
  };
  const { id: colourwayId } = colourway;
  for (const photo of photos) {
    if (photo.colourwayId !== null || photo.shows !== 'bait') continue;
    const told = toldOf(photo, moved);
    const isTold = told?.colourwayId === colourwayId;
    if (!isTold && !(photo.mixId && own.has(photo.mixId))) continue;
    const changes = { colourwayId, mixId: isTold ? told.mixId : mixId };
    plan.photos.push(await changedHead(book, 'photos', photo, changes, at));
  }
  for (const remark of remarks) {
    if (remark.colourwayId !== null || !remark.mixId || !own.has(remark.mixId)) continue;
    const changes = { colourwayId, mixId };
    plan.remarks.push(await changedHead(book, 'remarks', remark, changes, at));
  }
  return plan;
}

/** The sessions that poured the mix, each with the entries that tell it anew. */
async function retoldOf(
  book: Book,
  mix: Mix,
  colourway: Colourway,
  at: Instant,
): Promise<Retold[]> {
  const found: { sessionId: SessionId; before: readonly Entry[]; rights: Right[] }[] = [];
  for (const { sessionId, entries: before } of await sessionsTelling(book, mix.id)) {
    const rights = namedAs(standingOf(before), mix, colourway);
    seeStamps(
      book,
      before.map(({ stamp }) => stamp),
    );
    if (rights.length > 0) found.push({ sessionId, before, rights });
  }
  const retold: Retold[] = [];
  for (const { sessionId, before, rights } of found) {
    const added: Entry[] = [];
    for (const right of rights) {
      added.push(await newEntry(book, sessionId, { kind: 'put-right', ...right }, at));
    }
    retold.push({ sessionId, before, added });
  }
  return retold;
}

/** The mix, and a side of it that was made up alone first and is in no pot of its own any more. */
function partsOf(mixId: MixId, sessions: readonly Retold[]): Set<MixId> {
  const parts = new Set([mixId]);
  for (const { before, added } of sessions) {
    const after = mentionsIn([...before, ...added]).used;
    for (const id of mixesPoured(before)) if (!after.has(id)) parts.add(id);
  }
  return parts;
}

/** The nameless mixes that the pots of a session were of. */
function mixesPoured(entries: readonly Entry[]): MixId[] {
  return all(standingOf(entries), 'pot-mixed').flatMap(({ said }) =>
    said.colourwayId === null ? said.pots.flatMap(({ mix }) => mix?.mixId ?? []) : [],
  );
}

function tableAfter({ before, added }: Retold): Table {
  return tableOf([...before, ...added]);
}

/** Stores all of it. False: something was written since it was read, and nothing is. */
async function keep(book: Book, plan: Plan): Promise<boolean> {
  const sealing = await Promise.all(
    plan.sessions.map(async (one) => {
      const found = await book.db.get('sealed', one.sessionId);
      return found
        ? { one, found, next: await sealedOf(found.id, [...one.before, ...one.added]) }
        : { one };
    }),
  );
  const tx = book.db.transaction(tables, 'readwrite', { durability: 'strict' });
  const mix = await tx.objectStore('mixes').get(plan.mix.id);
  const counts = [await tx.objectStore('photos').count(), await tx.objectStore('remarks').count()];
  let isAsRead = `${counts}` === `${plan.counts}` && mix?.colourwayId === null;
  for (const { one, found } of sealing) {
    const now = found
      ? (await tx.objectStore('sealed').get(one.sessionId))?.entries
      : await tx.objectStore('entries').getAll(rangeOf(one.sessionId));
    isAsRead &&= isUntouched(now, one.before);
  }
  if (!mix || !isAsRead) return await leave(tx);
  // A field that was changed meanwhile, as a rating, is kept beside what the name changes.
  const photos = await overTheirs(tx.objectStore('photos'), plan.photos);
  const remarks = await overTheirs(tx.objectStore('remarks'), plan.remarks);
  const told = await toldWrites(
    tx,
    sealing.flatMap(({ next }) => next?.columns ?? []),
  );
  const writes: (() => unknown)[] = [
    () => tx.objectStore('colourways').put(plan.colourway),
    () => tx.objectStore('mixes').put(mergedHead(mix, plan.mix)),
    ...photos.map((photo) => () => tx.objectStore('photos').put(photo)),
    ...remarks.map((remark) => () => tx.objectStore('remarks').put(remark)),
    ...sealing.flatMap(({ one, found, next }): (() => unknown)[] =>
      found && next
        ? [
            () => tx.objectStore('sealed').put({ ...found, ...next.sealed }),
            () => tx.objectStore('columns').delete([found.startedAt, found.id]),
            () => tx.objectStore('columns').put(next.columns),
          ]
        : one.added.map((entry) => () => tx.objectStore('entries').put(entry)),
    ),
    ...told,
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ];
  await whole(tx, writes);
  return true;
}

/** What the log tells of a photo's bait now; null: it is of no evening that poured the mix. */
function toldOf({ sessionId, shotId }: Photo, moved: ReadonlyMap<SessionId, Table>): Poured | null {
  const table = sessionId && moved.get(sessionId);
  if (!sessionId || !table) return null;
  if (!shotId) return pouredBy(table, sessionId);
  const shot = table.shots.find(({ id }) => id === shotId);
  return shot ? pouredIn(table, sessionId, shot) : null;
}
