import type { Standing } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import type { EntryId, PotId, ShotId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { PouredMix } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';

/** One fill of a pot, from mixing to emptying. */
export interface Pot {
  id: PotId;
  slot: number;
  name: string;
  swatch: string | null;
  colourwayId: ColourwayId | null;
  colourwayName: string;
  mixedAt: Instant;
  mixedBy: EntryId;
  /** It took every other pot off the table. */
  isAlone: boolean;
  emptiedAt: Instant | null;
  /** What was mixed in first, mL; what stands on the cup; and the mix it was. */
  mixedMl: number;
  batch: string | null;
  mix: PouredMix | null;
  /** The pot it was made up beside, as the other side of one mix; null: none. */
  besidePotId: PotId | null;
  /** What happened to it, oldest first. */
  course: readonly PotEvent[];
}

export type PotEvent =
  | {
      kind: 'filled';
      at: Instant;
      volumeMl: number;
      meanHeats: number;
      maxHeats: number;
      /** What coloured it; absent: nobody told. */
      mix?: PouredMix;
    }
  | { kind: 'heated'; at: Instant }
  | { kind: 'read'; at: Instant; tempC: number }
  | { kind: 'drawn'; at: Instant; volumeMl: number; shotIds: readonly ShotId[] };

/** Every pot of a session, in the order of mixing. */
export function potsOf(lines: readonly Standing[]): Pot[] {
  const emptied = new Map(all(lines, 'pot-emptied').map((line) => [line.said.potId, line.at]));
  return all(lines, 'pot-mixed').flatMap(({ id, at, said }) =>
    said.pots.map((pot): Pot => {
      const { volumeMl, meanHeats, maxHeats } = pot;
      const own = pot.mix ? { mix: pot.mix } : {};
      const first: PotEvent = { kind: 'filled', at, volumeMl, meanHeats, maxHeats, ...own };
      const course = [first, { kind: 'heated', at } as const, ...eventsOf(lines, pot.potId)];
      return {
        id: pot.potId,
        slot: pot.slot,
        name: pot.name,
        swatch: pot.swatch,
        colourwayId: said.colourwayId,
        colourwayName: said.name,
        mixedAt: at,
        mixedBy: id,
        isAlone: said.isAlone,
        emptiedAt: emptied.get(pot.potId) ?? null,
        mixedMl: volumeMl,
        batch: pot.batch ?? null,
        mix: pot.mix ?? null,
        besidePotId: pot.besidePotId ?? null,
        course: course.sort((a, b) => a.at - b.at),
      };
    }),
  );
}

function eventsOf(lines: readonly Standing[], potId: PotId): PotEvent[] {
  const filledShots = new Set(
    all(lines, 'filled').flatMap(({ said }) => said.shots.map(({ shotId }) => shotId)),
  );
  return lines.flatMap(({ at, said }): PotEvent[] => {
    if (said.kind === 'filled' && said.potIds.includes(potId)) {
      const volumeMl = said.shots.reduce((sum, shot) => sum + shot.volumeMl, 0);
      const shotIds = said.shots.map((shot) => shot.shotId);
      return [{ kind: 'drawn', at, volumeMl: volumeMl / said.potIds.length, shotIds }];
    }
    if (!('potId' in said) || said.potId !== potId) return [];
    if (said.kind === 'layer-poured') {
      // A layer of a fill that was taken back was poured into nothing.
      const own = said.shots.filter(({ shotId }) => filledShots.has(shotId));
      const volumeMl = own.reduce((sum, shot) => sum + shot.volumeMl, 0);
      return [{ kind: 'drawn', at, volumeMl, shotIds: own.map(({ shotId }) => shotId) }];
    }
    if (said.kind === 'pot-heated') return [{ kind: 'heated', at }];
    if (said.kind === 'pot-read') return [{ kind: 'read', at, tempC: said.tempC }];
    if (said.kind !== 'pot-topped-up') return [];
    const { volumeMl, meanHeats, maxHeats } = said;
    const own = said.mix ? { mix: said.mix } : {};
    return [{ kind: 'filled', at, volumeMl, meanHeats, maxHeats, ...own }];
  });
}

/** The newest mix in each slot, unless it was emptied. */
export function inUseOf(pots: readonly Pot[]): Pot[] {
  let bySlot = new Map<number, Pot>();
  for (const pot of pots) {
    if (pot.isAlone) {
      bySlot = new Map([...bySlot].filter(([, other]) => other.mixedBy === pot.mixedBy));
    }
    bySlot.set(pot.slot, pot);
  }
  return [...bySlot.values()]
    .filter((pot) => pot.emptiedAt === null)
    .sort((a, b) => a.slot - b.slot);
}

/** Slots of the only pot, or of the sides A and B of a laminate. */
const lastSideSlot = 1;

/**
 * What an injected round draws from: the pots that were chosen, unless the only pot or a side was
 * mixed since; else the only pot or both sides; else the first pot that stands.
 */
export function drawnOf(lines: readonly Standing[], inUse: readonly Pot[]): Pot[] {
  const newest = lines.findLast(
    ({ said }) =>
      said.kind === 'pot-chosen' ||
      (said.kind === 'pot-mixed' && said.pots.some(({ slot }) => slot <= lastSideSlot)),
  );
  const chosenIds = newest?.said.kind === 'pot-chosen' ? newest.said.potIds : [];
  const chosen = inUse.filter(({ id }) => chosenIds.includes(id));
  if (chosen.length > 0) return chosen;
  const sides = inUse.filter(({ slot }) => slot <= lastSideSlot);
  return sides.length > 0 ? sides : inUse.slice(0, 1);
}
