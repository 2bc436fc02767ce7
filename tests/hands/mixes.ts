import { toMl } from '#calc/units.ts';
import type { PotId, Said } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { Material, MaterialId } from '#model/material.ts';
import type { Dose, Mix, MixSide } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, freshId } from '#store/book.ts';
import { logEntry } from '#store/entries.ts';
import { addHead, type FactsOf } from '#store/heads.ts';
import type { MixDraft } from '#store/mixes.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { endSession } from '#store/sessions.ts';
import { startPouring } from '#store/start.ts';
import { aMould, seven } from './evening.ts';

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

/** Pours a version in a session of its own: one pot of it. */
export async function pourMix(book: Book, mix: Mix, at: Instant, isEnded = true) {
  const mould = await aMould(book, 'Grub 50');
  const zone = 'Europe/Berlin';
  const beginning = { mouldIds: [mould.id], injectorId: null, colourwayId: null, zone };
  const sessionId = await startPouring(book, beginning, at);
  const entry = await logEntry(book, sessionId, potOf(mix, at), at + 60_000);
  if (isEnded) await endSession(book, sessionId, at + 120_000);
  return { sessionId, entry };
}

/** A pot of the one side of a version. */
export function potOf({ id, version, colourwayId, baseMl, sides }: Mix, at: Instant): Said {
  const [side] = sides;
  if (!side) throw new Error('This mix has no side.');
  const mix = { mixId: id, version, role: 'only', plastisolId: null, doses: side.doses } as const;
  const filled = { volumeMl: baseMl, meanHeats: 0, maxHeats: 0 };
  const pot = { potId: freshId<PotId>(at), slot: 0, name: 'Peat', swatch: '#5b4029' };
  return {
    kind: 'pot-mixed',
    colourwayId,
    name: 'Peat',
    isAlone: true,
    pots: [{ ...pot, ...filled, mix }],
  };
}
