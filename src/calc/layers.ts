import type { Standing } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import type { Pot } from '#calc/table-pots.ts';
import type { PotId, ShotId } from '#model/entry.ts';
import type { FrozenMould } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';

/** One pour into a mould: all of an injected shot, or one layer of a hand pour. */
export interface Layer {
  /** What it was poured from, in the order of the pots; empty: no pot was logged. */
  potIds: readonly PotId[];
  at: Instant;
}

/** The hand pour that comes next in one mould. */
export interface HandPour {
  /** Where the next layer comes from; null: the shot in the mould has all its layers, or there is no pot. */
  pot: Pot | null;
  /** How many layers a shot is expected to get, from 1. */
  planned: number;
}

/** The most layers that a shot can have. */
export const mostLayers = 6;

/** Layers on top of the first, by shot, in the order of pouring, and what they took. */
export function layersOf(
  lines: readonly Standing[],
): Map<ShotId, (Layer & { volumeMl: number })[]> {
  const layers = new Map<ShotId, (Layer & { volumeMl: number })[]>();
  for (const { at, said } of all(lines, 'layer-poured')) {
    for (const { shotId, volumeMl } of said.shots) {
      const below = layers.get(shotId) ?? [];
      layers.set(shotId, [...below, { potIds: [said.potId], at, volumeMl }]);
    }
  }
  return layers;
}

/** What a hand pour goes by: the shots of its mould so far, and the pots. */
interface Poured {
  mould: FrozenMould;
  shots: readonly {
    id: ShotId;
    layers: readonly Layer[];
    loggedAt: Instant | null;
    clockStoppedAt: Instant | null;
  }[];
  pots: readonly Pot[];
  potsInUse: readonly Pot[];
}

/**
 * What comes next in a mould that is poured by hand; null: it is injected. The order is that of the
 * shot before, by the places of the pots; for a first shot every pot once. A pot that was chosen
 * since the last pour goes before that.
 */
export function handPourOf(
  { mould, shots, pots, potsInUse }: Poured,
  lines: readonly Standing[],
): HandPour | null {
  if (mould.fill !== 'by-hand') return null;
  const last = shots.at(-1);
  const waiting = last && last.loggedAt === null ? last : null;
  const before = waiting ? shots.at(-2) : last;
  const poured = waiting?.layers ?? [];
  const order = before ? againOf(before.layers, pots, potsInUse) : [];
  const planned = Math.min(mostLayers, Math.max(1, order.length || potsInUse.length));
  const isWhole = all(lines, 'layers-ended').some(({ said }) => said.shotId === waiting?.id);
  if (waiting && (isWhole || waiting.clockStoppedAt !== null || poured.length >= mostLayers)) {
    return { pot: null, planned };
  }
  const used = new Set(poured.flatMap(({ potIds }) => potIds));
  // A pot that was mixed after the first layer was not meant for this shot, unless it is chosen.
  const begunAt = poured[0]?.at ?? Number.POSITIVE_INFINITY;
  const fresh = potsInUse.find(({ id, mixedAt }) => !used.has(id) && mixedAt <= begunAt);
  const usual = order.length > 0 ? order[poured.length] : fresh;
  return { pot: chosenSince(last?.id, potsInUse, lines) ?? usual ?? null, planned };
}

/** The pots that now stand where those of these layers stood, in their order. */
function againOf(layers: readonly Layer[], pots: readonly Pot[], inUse: readonly Pot[]): Pot[] {
  return layers.flatMap(({ potIds }) => {
    const slot = pots.find(({ id }) => id === potIds[0])?.slot;
    return inUse.find((pot) => pot.slot === slot) ?? [];
  });
}

/** The pot that was chosen after the last pour of a shot; null: none was. */
function chosenSince(
  shotId: ShotId | undefined,
  inUse: readonly Pot[],
  lines: readonly Standing[],
): Pot | null {
  const newest = lines.findLast(({ said }) => {
    if (said.kind === 'pot-chosen') return true;
    if (said.kind !== 'filled' && said.kind !== 'layer-poured') return false;
    return said.shots.some((shot) => shot.shotId === shotId);
  });
  if (newest?.said.kind !== 'pot-chosen') return null;
  const [first] = newest.said.potIds;
  return inUse.find(({ id }) => id === first) ?? null;
}
