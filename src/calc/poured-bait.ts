import { mixNow } from '#calc/mix-now.ts';
import type { Shot, Table } from '#calc/table.ts';
import type { SessionId, ShotId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MixId } from '#model/mix.ts';
import type { MouldId } from '#model/mould.ts';

/** What the log tells of a bait: its evening, its shot, its colour. */
export interface Poured {
  sessionId: SessionId;
  shotId: ShotId | null;
  mouldId: MouldId | null;
  mixId: MixId | null;
  colourwayId: ColourwayId | null;
}

/**
 * What the log tells of a bait of one shot. Its pot was of no mix any more once old plastic went in:
 * that brought a colour of its own.
 */
export function pouredIn(table: Table, sessionId: SessionId, shot: Shot): Poured {
  const pots = table.pots.filter(({ id }) => shot.potIds.includes(id));
  const isPure = pots.every(({ course }) =>
    course.every((one) => one.kind !== 'filled' || one.maxHeats === 0 || one.at > shot.filledAt),
  );
  // Both cups of a laminate are one mix, also where the first was made up before the second.
  const mixId = isPure
    ? (pots.map((pot) => mixNow(pots, pot)?.mixId).find((id) => id) ?? null)
    : null;
  const { id: shotId, mouldId, colourwayId } = shot;
  return { sessionId, shotId, mouldId, mixId, colourwayId };
}

/** What it tells of a bait of the evening: the colour and the mix when there was only one. */
export function pouredBy(table: Table, sessionId: SessionId): Poured {
  const one = <T>(values: readonly T[]): T | null => {
    const different = [...new Set(values)];
    return different.length === 1 ? (different[0] ?? null) : null;
  };
  return {
    sessionId,
    shotId: null,
    mouldId: null,
    mixId: one(table.pots.map((pot) => mixNow(table.pots, pot)?.mixId ?? null)),
    colourwayId: one(table.pots.map(({ colourwayId }) => colourwayId)),
  };
}

/** The shot that a photo at the table is of: the one looked at last, else the one filled last. */
export function lastShotOf({ shots }: Table): Shot | null {
  const looked = shots.filter(({ loggedAt }) => loggedAt !== null);
  const last = looked.toSorted((a, b) => (a.loggedAt ?? 0) - (b.loggedAt ?? 0)).at(-1);
  return last ?? shots.at(-1) ?? null;
}
