import { type MixBody, pouredDoses, pouredSide, scaledMix } from '#calc/mix.ts';
import type { SaidOf } from '#model/entry.ts';
import type { Dose, Mix, MixRole, MixSide, PouredMix } from '#model/mix.ts';

type Mixed = SaidOf<'pot-mixed'>;
type Version = Pick<Mix, 'id' | 'version'>;

/** The role of a colourway's side in its mix: A and B of a laminate, or the only one. */
export function roleAt(index: number, sides: number): MixRole {
  if (sides < 2) return 'only';
  return index === 0 ? 'a' : 'b';
}

/** A side of a mix for so much plastisol, as a hand can measure it. */
export function pouredAt(baseMl: number, side: MixSide, volumeMl: number) {
  const [scaled = side] = scaledMix({ baseMl, sides: [side] }, volumeMl).sides;
  return pouredSide(scaled, volumeMl);
}

/** What is frozen of a version when a side of it is poured with these doses. */
export function frozenMix(
  { id, version }: Version,
  { role, plastisolId }: Pick<MixSide, 'role' | 'plastisolId'>,
  doses: readonly Dose[],
): PouredMix {
  return { mixId: id, version, role, plastisolId, doses: [...doses] };
}

/** The same pots, each mixed by its side of `mix`, and as large as the doses want them. */
export function withMix(said: Mixed, mix: MixBody & Version): Mixed {
  const pots = said.pots.map((pot, index) => {
    const role = roleAt(index, said.pots.length);
    const side = mix.sides.find((one) => one.role === role);
    if (!side) return pot;
    const poured = pouredAt(mix.baseMl, side, pot.volumeMl);
    return { ...pot, volumeMl: poured.baseMl, mix: frozenMix(mix, side, pouredDoses(poured)) };
  });
  return { ...said, pots };
}

/** The same pots with the numbers that stand on their cups. */
export function withBatches(said: Mixed, batches: readonly string[]): Mixed {
  const pots = said.pots.map((pot, index) => ({ ...pot, batch: batches[index] ?? null }));
  return { ...said, pots };
}
