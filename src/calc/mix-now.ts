import type { Pot } from '#calc/table-pots.ts';
import type { MixRole, PouredMix } from '#model/mix.ts';

/**
 * What a pot is of a mix by now, its doses as they went in. A pot that another was made up beside is a
 * side of that later mix; of several the newest counts. Null: it is of no mix.
 */
export function mixNow(pots: readonly Pot[], pot: Pot): PouredMix | null {
  const later = pots.findLast(({ besidePotId, mix }) => besidePotId === pot.id && mix)?.mix;
  if (!pot.mix || !later) return pot.mix;
  const { mixId, version, role } = later;
  return { ...pot.mix, mixId, version, role: otherRole(role) };
}

/** The other side of a laminate. */
export function otherRole(role: MixRole): MixRole {
  return role === 'b' ? 'a' : 'b';
}
