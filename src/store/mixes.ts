import { standingOf } from '#calc/log.ts';
import type { MixBody } from '#calc/mix.ts';
import { isSameMix } from '#calc/mix-difference.ts';
import { all } from '#calc/said.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { Colourway, ColourwayId } from '#model/gear.ts';
import type { Mix, MixId } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, pennedMeta } from '#store/book.ts';
import { changedHead, changeHead, headOf, headsOf, newHead } from '#store/heads.ts';
import { addMix } from '#store/improvised.ts';
import { newestFirst } from '#store/newest-mixes.ts';
import { announce } from '#store/notice.ts';
import { whole } from '#store/whole.ts';

/** What the person writes of a version: the doses, and what to do otherwise next time. */
export type MixDraft = MixBody & Pick<Mix, 'nextTime'>;

/** The versions of a colour's mix, the newest first. */
export async function versionsOf(book: Book, colourwayId: ColourwayId): Promise<Mix[]> {
  const mixes = await headsOf(book, 'mixes');
  return mixes.filter((mix) => mix.colourwayId === colourwayId).sort(newestFirst);
}

/** Mixes that were made up at the table and have no name yet, the newest first. */
export async function namelessMixes(book: Book): Promise<Mix[]> {
  return (await headsOf(book, 'mixes'))
    .filter(({ colourwayId }) => colourwayId === null)
    .sort((a, b) => b.createdAt - a.createdAt);
}

/** Where the next version begins: the doses as they stand, with the note for next time. */
export function draftOf(mix: Mix): MixDraft {
  return { baseMl: mix.baseMl, sides: mix.sides, nextTime: mix.nextTime };
}

/**
 * Keeps what was written of a colour's mix. A newest version that was never poured is changed where
 * it stands; a poured one is left alone and the next version is written. Doses that are the same as
 * before make no version. Throws a ZodError for doses that may not exist.
 */
export async function keepMix(
  book: Book,
  colourwayId: ColourwayId,
  draft: MixDraft,
  at: Instant,
): Promise<Mix> {
  const [newest] = await versionsOf(book, colourwayId);
  const facts = { baseMl: draft.baseMl, sides: draft.sides, nextTime: draft.nextTime };
  if (newest && !(await wasPoured(book, newest.id))) {
    return await changeHead(book, 'mixes', newest.id, facts, at);
  }
  if (newest && isSameMix(newest, facts))
    return await noteNextTime(book, newest.id, facts.nextTime, at);
  return await addMix(book, { ...facts, colourwayId, version: (newest?.version ?? 0) + 1 }, at);
}

/** Notes what to do otherwise next time; the version itself stays as it was poured. */
export async function noteNextTime(book: Book, mixId: MixId, words: string, at: Instant) {
  return await changeHead(book, 'mixes', mixId, { nextTime: words }, at);
}

/** Gives a nameless mix a colour of its own, and its name. One transaction. */
export async function nameMix(
  book: Book,
  mixId: MixId,
  named: { name: string; swatch: string },
  at: Instant,
): Promise<Colourway> {
  const mix = await headOf(book, 'mixes', mixId);
  if (!mix || mix.colourwayId !== null) throw new Error('This mix is named already.');
  const facts = { name: named.name, sides: [named] };
  const colourway = await newHead(book, 'colourways', { facts, at });
  const next = await changedHead(book, 'mixes', mix, { colourwayId: colourway.id }, at);
  const stores = ['colourways', 'mixes', 'meta'] as const;
  const tx = book.db.transaction(stores, 'readwrite', { durability: 'strict' });
  await whole(tx, [
    () => tx.objectStore('colourways').put(colourway),
    () => tx.objectStore('mixes').put(next),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce('colourways', 'mixes');
  return colourway;
}

/** A session in which a version was poured, and when its first pot of it was mixed. */
export interface MixPour {
  sessionId: SessionId;
  at: Instant;
  zone: string;
  moulds: string[];
}

/** The sessions that poured each version, the newest first. Reads the whole log: for one page. */
export async function poursOf(
  book: Book,
  mixIds: readonly MixId[],
): Promise<Map<MixId, MixPour[]>> {
  const wanted = new Set<MixId>(mixIds);
  const found = new Map<MixId, MixPour[]>();
  await eachSession(book, (sessionId, entries) => {
    const lines = standingOf(entries);
    const zone = all(lines, 'session-begun').at(-1)?.said.zone ?? 'UTC';
    const moulds = all(lines, 'lined-up').flatMap(({ said }) =>
      said.moulds.map(({ name }) => name),
    );
    const seen = new Set<MixId>();
    for (const { at, said } of all(lines, 'pot-mixed')) {
      for (const { mix } of said.pots) {
        if (!mix || !wanted.has(mix.mixId) || seen.has(mix.mixId)) continue;
        seen.add(mix.mixId);
        const pour = { sessionId, at, zone, moulds: [...new Set(moulds)] };
        found.set(mix.mixId, [...(found.get(mix.mixId) ?? []), pour]);
      }
    }
  });
  for (const pours of found.values()) pours.sort((a, b) => b.at - a.at);
  return found;
}

/** True when a pot of this version was ever mixed, also when that was taken back. */
export async function wasPoured(book: Book, mixId: MixId): Promise<boolean> {
  let isFound = false;
  await eachSession(book, (_id, entries) => {
    isFound ||= entries.some(({ said }) => mixIdsIn(said).includes(mixId));
  });
  return isFound;
}

function mixIdsIn(said: Entry['said']): MixId[] {
  if (said.kind === 'put-right') return mixIdsIn(said.says as Entry['said']);
  if (said.kind === 'pot-mixed') return said.pots.flatMap(({ mix }) => mix?.mixId ?? []);
  return said.kind === 'pot-topped-up' && said.mix ? [said.mix.mixId] : [];
}

/** Every session with its entries, one after the other so that years of them are never in memory at once. */
async function eachSession(
  book: Book,
  look: (sessionId: SessionId, entries: readonly Entry[]) => void,
): Promise<void> {
  const running = new Map<SessionId, Entry[]>();
  const tx = book.db.transaction(['sealed', 'entries']);
  for (const entry of await tx.objectStore('entries').getAll()) {
    running.set(entry.sessionId, [...(running.get(entry.sessionId) ?? []), entry]);
  }
  for (const [sessionId, entries] of running) look(sessionId, entries);
  let cursor = await tx.objectStore('sealed').openCursor();
  while (cursor) {
    look(cursor.value.id, cursor.value.entries);
    cursor = await cursor.continue();
  }
}
