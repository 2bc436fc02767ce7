import { type Columns, type PackedPour, packedPours } from '#calc/columns.ts';
import { standingOf } from '#calc/log.ts';
import type { MixBody } from '#calc/mix.ts';
import { isSameMix } from '#calc/mix-difference.ts';
import { tableOf } from '#calc/table.ts';
import type { SessionId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Mix, MixId } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';
import type { Book } from '#store/book.ts';
import { changeHead } from '#store/heads.ts';
import { allColumns } from '#store/history.ts';
import { addMix } from '#store/improvised.ts';
import { versionsOf } from '#store/newest-mixes.ts';
import { wasPoured } from '#store/told-versions.ts';

export { versionsOf } from '#store/newest-mixes.ts';

/** What the person writes of a version: the doses, and what to do otherwise next time. */
export type MixDraft = MixBody & Pick<Mix, 'nextTime'>;

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

/** A session in which a version was poured, and when its first pot of it was mixed. */
export interface MixPour {
  sessionId: SessionId;
  at: Instant;
  zone: string;
  moulds: string[];
  /** How much that pot was mixed of. */
  volumeMl: number;
}

/**
 * The sessions that poured each version, the newest first: by their digests; one that was packed
 * before pours were kept is read whole, and so is one that runs.
 */
export async function poursOf(
  book: Book,
  mixIds: readonly MixId[],
  digests?: readonly Columns[],
): Promise<Map<MixId, MixPour[]>> {
  const wanted = new Set<MixId>(mixIds);
  const found = new Map<MixId, MixPour[]>();
  const take = ({ sessionId, startedAt, zone, moulds }: Evening, pours: readonly PackedPour[]) => {
    for (const { mixId, afterSec, volumeMl } of pours) {
      if (!wanted.has(mixId)) continue;
      const at = startedAt + Math.round(afterSec * 1_000);
      const names = [...new Set(moulds.map(({ name }) => name))];
      const pour = { sessionId, at, zone, moulds: names, volumeMl };
      found.set(mixId, [...(found.get(mixId) ?? []), pour]);
    }
  };
  for (const digest of digests ?? (await allColumns(book))) {
    take(digest, digest.mixed ?? (await pouredIn(book, digest)));
  }
  const running = Map.groupBy(await book.db.getAll('entries'), ({ sessionId }) => sessionId);
  for (const [sessionId, entries] of running) {
    const { begunAt: startedAt, zone, allSeats } = tableOf(entries);
    const moulds = allSeats.map(({ mould }) => mould);
    take({ sessionId, startedAt, zone, moulds }, packedPours(standingOf(entries), startedAt));
  }
  for (const pours of found.values()) pours.sort((a, b) => b.at - a.at);
  return found;
}

type Evening = Pick<Columns, 'sessionId' | 'startedAt' | 'zone'> & {
  moulds: readonly { name: string }[];
};

async function pouredIn(book: Book, { sessionId, startedAt }: Columns): Promise<PackedPour[]> {
  const sealed = await book.db.get('sealed', sessionId);
  return packedPours(standingOf(sealed?.entries ?? []), startedAt);
}
