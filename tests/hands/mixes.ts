import { toMl } from '#calc/units.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Material, MaterialId } from '#model/material.ts';
import type { Dose, MixSide } from '#model/mix.ts';
import type { Book } from '#store/book.ts';
import { addHead, type FactsOf } from '#store/heads.ts';
import type { MixDraft } from '#store/mixes.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { seven } from './evening.ts';

/** One US cup, mL. */
export const cupMl = toMl(1, 'cup');

/** A dose of a material that nothing else is known of. */
export function aDose(
  materialId: string,
  amount: number,
  unit: Dose['unit'] = 'drop',
  changes: Partial<Dose> = {},
): Dose {
  const id = materialId as MaterialId;
  return { materialId: id, name: 'Peat', amount, unit, isPinned: false, ...changes };
}

/** One side of a mix. */
export function aSide(doses: Dose[], changes: Partial<MixSide> = {}): MixSide {
  return { role: 'only', name: 'Peat', swatch: '#5b4029', plastisolId: null, doses, ...changes };
}

/** Adds a material of the shop: a colourant that is counted in drops, unless told otherwise. */
export async function aMaterial(
  book: Book,
  name: string,
  changes: Partial<FactsOf<'materials'>> = {},
): Promise<Material> {
  const facts: FactsOf<'materials'> = {
    ...plainMaterial('colourant'),
    name,
    swatch: '#16120e',
    ...changes,
  };
  return await addHead(book, 'materials', facts, seven - 86_400_000);
}

/** A draft of one side: so many drops of each material in one cup. */
export function aDraft(drops: readonly (readonly [Material, number])[]): MixDraft {
  const doses = drops.map(([{ id, name }, amount]) => aDose(id, amount, 'drop', { name }));
  return { baseMl: cupMl, sides: [aSide(doses)], nextTime: '' };
}

/** The id of a colourway that is in no book. */
export const noColourway = '0193a000-0000-7000-8000-0000000000ff' as ColourwayId;
