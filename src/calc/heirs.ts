import type { ColourwayId } from '#model/gear.ts';
import type { Mix, MixId } from '#model/mix.ts';

/** What can be of a mix that had no name when it was written. */
interface OfMix {
  colourwayId: ColourwayId | null;
  mixId: MixId | null;
}

/**
 * The mix that each mix goes by: itself once it has a name, and a side that was made up alone first the
 * laminate that it became a side of. A mix without a name is missing. Whatever order phones are merged
 * in, it is the same: of two laminates that claim one side, the one named last has it.
 */
export function heirsOf(mixes: readonly Mix[]): Map<MixId, Mix> {
  const named = mixes
    .filter(({ colourwayId }) => colourwayId !== null)
    .sort((a, b) => (namedStamp(a) < namedStamp(b) ? -1 : 1));
  const heirs = new Map<MixId, Mix>();
  for (const mix of named) for (const part of mix.parts ?? []) heirs.set(part, mix);
  for (const mix of named) heirs.set(mix.id, mix);
  return heirs;
}

/** A note or photo as the colour's that its mix has by now; what has a colour, or no mix, stays as it is. */
export function asHeirs<T extends OfMix>(one: T, heirs: ReadonlyMap<MixId, Mix>): T {
  const heir = one.colourwayId === null && one.mixId ? heirs.get(one.mixId) : undefined;
  return heir ? { ...one, colourwayId: heir.colourwayId, mixId: heir.id } : one;
}

/** Every mix that goes by a colour: its versions, and the sides that became part of one. */
export function mixIdsOf(mixes: readonly Mix[], colourwayId: ColourwayId): MixId[] {
  return [...heirsOf(mixes)].flatMap(([id, heir]) =>
    heir.colourwayId === colourwayId ? [id] : [],
  );
}

function namedStamp({ stamps, id }: Mix): string {
  return `${stamps.colourwayId ?? ''} ${id}`;
}
