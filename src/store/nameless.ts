import { type Standing, standingOf } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import { mentionsIn, potsOfMix } from '#calc/told-mixes.ts';
import type { Entry, EntryId, SaidOf, SessionId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix, MixId, MixSide } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, pennedMeta } from '#store/book.ts';
import { changedHead, type FactsOf, headOf, headsOf, newHead } from '#store/heads.ts';
import { columnsBetween } from '#store/history.ts';
import { eachSession } from '#store/mixes.ts';
import { announce } from '#store/notice.ts';
import { putRight } from '#store/sessions.ts';
import { whole } from '#store/whole.ts';

/** A session may begin so long before a pot of it is made up. */
const reachMs = 36 * 3_600_000;

/**
 * Mixes that were made up at the table and have no name yet, the newest first. One of which every pour
 * was taken back waits for no name, and a side that became one of a laminate's waits as that laminate.
 */
export async function namelessMixes(book: Book): Promise<Mix[]> {
  const mixes = (await headsOf(book, 'mixes')).filter(({ colourwayId }) => colourwayId === null);
  const sessions = await sessionsNear(book, mixes);
  const said = sessions.map(mentionsIn);
  return mixes
    .filter(
      ({ id }) =>
        said.some(({ used }) => used.has(id)) || !said.some(({ mentioned }) => mentioned.has(id)),
    )
    .sort((a, b) => b.createdAt - a.createdAt || (a.id < b.id ? 1 : -1));
}

/** What a nameless mix is to be called, and how each of its sides looks: one, or A and B. */
export type Naming = Pick<FactsOf<'colourways'>, 'name' | 'sides'>;

/**
 * Gives a nameless mix a colour of its own, and its name; then the pots that it went into are pots of
 * that colour.
 */
export async function nameMix(
  book: Book,
  mixId: MixId,
  named: Naming,
  at: Instant,
): Promise<Colourway> {
  const mix = await headOf(book, 'mixes', mixId);
  if (!mix || mix.colourwayId !== null) throw new Error('This mix is named already.');
  const colourway = await newHead(book, 'colourways', { facts: named, at });
  const sides = mix.sides.map((side) => ({ ...side, ...lookOf(colourway, side) }));
  const next = await changedHead(book, 'mixes', mix, { colourwayId: colourway.id, sides }, at);
  const stores = ['colourways', 'mixes', 'meta'] as const;
  const tx = book.db.transaction(stores, 'readwrite', { durability: 'strict' });
  await whole(tx, [
    () => tx.objectStore('colourways').put(colourway),
    () => tx.objectStore('mixes').put(next),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce('colourways', 'mixes');
  for (const right of await pourRights(book, next, colourway)) {
    await putRight(book, right.sessionId, right, at);
  }
  return colourway;
}

interface Right {
  sessionId: SessionId;
  target: EntryId;
  says: SaidOf<'pot-mixed'>;
  happenedAt: Instant;
}

/** What the lines of its pots should have said, had the mix had its colour then. */
async function pourRights(book: Book, mix: Mix, colourway: Colourway): Promise<Right[]> {
  const rights: Right[] = [];
  await eachSession(book, (sessionId, entries) => {
    const lines = standingOf(entries);
    for (const line of all(lines, 'pot-mixed')) {
      const says = saysOf(line.said, lines, mix, colourway);
      if (says) rights.push({ sessionId, target: line.id, says, happenedAt: line.at });
    }
  });
  return rights;
}

/** A pot that has a colour keeps it. Null: the line is of other pots. */
function saysOf(
  said: SaidOf<'pot-mixed'>,
  lines: readonly Standing[],
  { id: mixId, version }: Mix,
  colourway: Colourway,
): SaidOf<'pot-mixed'> | null {
  const roles = potsOfMix(lines, mixId);
  // The other side may be that of an earlier laminate: it stays that one's.
  const isOwn = said.pots.some(
    ({ potId, mix }) => mix && roles.has(potId) && (mix.mixId === mixId || mix.role === 'only'),
  );
  if (said.colourwayId !== null || !isOwn) return null;
  const pots = said.pots.map((pot) => {
    const role = roles.get(pot.potId);
    if (!pot.mix || !role) return pot;
    return { ...pot, ...lookOf(colourway, { role }), mix: { ...pot.mix, mixId, version, role } };
  });
  return { ...said, colourwayId: colourway.id, name: colourway.name, pots };
}

function lookOf({ sides }: Colourway, { role }: Pick<MixSide, 'role'>) {
  return role === 'b' ? sides[1] : sides[0];
}

/** The entries of each session that may have poured one of these mixes when it was made up. */
async function sessionsNear(book: Book, mixes: readonly Mix[]): Promise<Entry[][]> {
  const near = new Set<SessionId>();
  for (const { createdAt } of mixes) {
    for (const { sessionId } of await columnsBetween(book, createdAt - reachMs, createdAt + 1)) {
      near.add(sessionId);
    }
  }
  const sealed = await Promise.all([...near].map((id) => book.db.get('sealed', id)));
  const running = Map.groupBy(
    mixes.length > 0 ? await book.db.getAll('entries') : [],
    ({ sessionId }) => sessionId,
  );
  return [...sealed.map((session) => session?.entries ?? []), ...running.values()];
}
