import { dosesFor } from '#calc/mix.ts';
import { frozenMix, roleAt } from '#calc/pot-mix.ts';
import type { MixedPot, SaidOf } from '#model/entry.ts';
import type { Colourway, ColourwayId } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';

/**
 * The same pots, filled with another colourway of as many sides. It was no pour of the old one's
 * mix: the doses of `mix` count instead, for as much as each pot held; null: none do.
 */
export function mixedAs(
  said: SaidOf<'pot-mixed'>,
  colourway: Colourway,
  mix: Mix | null,
): SaidOf<'pot-mixed'> {
  return {
    ...said,
    colourwayId: colourway.id,
    name: colourway.name,
    pots: said.pots.map((pot, index) => ({
      ...pot,
      ...colourway.sides[index],
      ...dosesIn(pot, mix, roleAt(index, said.pots.length)),
    })),
  };
}

/**
 * The version of a colour's mix that a pot of `at` was poured by: the newest there was then, or the
 * first one when it was written down only afterwards. Null: there is none.
 */
export function versionAt(
  mixes: readonly Mix[],
  colourwayId: ColourwayId,
  at: Instant,
): Mix | null {
  const own = mixes
    .filter((mix) => mix.colourwayId === colourwayId)
    .sort((a, b) => a.version - b.version || a.createdAt - b.createdAt);
  return own.findLast(({ createdAt }) => createdAt <= at) ?? own[0] ?? null;
}

function dosesIn(pot: MixedPot, mix: Mix | null, role: Mix['sides'][number]['role']) {
  const side = mix?.sides.find((one) => one.role === role);
  // What was hot before came coloured, unless doses were logged for it.
  const isDosed = Boolean(pot.mix) || pot.maxHeats === 0;
  if (!mix || !side || !isDosed) return pot.mix ? { mix: null } : {};
  return { mix: frozenMix(mix, side, dosesFor(mix.baseMl, side, pot.volumeMl)) };
}
