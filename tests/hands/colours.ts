import type { Lab } from '#calc/colour.ts';
import { mixOptics, type Optics, opticsLab } from '#calc/optics.ts';
import type { ColourShop } from '#calc/shop-colours.ts';
import { toMl } from '#calc/units.ts';
import type { Material, MaterialId } from '#model/material.ts';
import type { Dose, Mix, MixId, MixRole } from '#model/mix.ts';
import type { Photo, PhotoId, PhotoReading } from '#model/photo.ts';
import { freshId } from '#store/book.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { seven } from './evening.ts';

const parts = { device: '00000000', stamps: {}, createdAt: seven, deletedAt: null };

/** Optics per drop in a cup that darken every band alike but some. */
export function opticsOf(absorb: number, scatterPerMm: number, ...peak: number[]): Optics {
  const absorbPerMm = Array.from({ length: 16 }, (_, band) =>
    peak.includes(band) ? absorb : absorb / 20,
  );
  return { absorbPerMm, scatterPerMm };
}

/** A colourant, sold by the mL and dosed in drops; null optics: no card photo yet. */
export function aColourant(
  name: string,
  optics: Optics | null,
  more: Partial<Material> = {},
): Material {
  return {
    id: freshId<MaterialId>(seven),
    ...parts,
    ...plainMaterial('colourant'),
    name,
    optics: optics && {
      absorbPerMm: [...optics.absorbPerMm],
      scatterPerMm: optics.scatterPerMm,
      dosePerCup: 5,
      isOnCard: true,
    },
    isAside: false,
    ...more,
  };
}

/** So many drops of a material. */
export function drops({ id, name }: Material, amount: number): Dose {
  return { materialId: id, name, amount, unit: 'drop', isPinned: false };
}

/** A mix of one side or two, in so many cups. */
export function aMix(
  sides: readonly (readonly Dose[])[],
  more: Partial<Mix> & { cups?: number } = {},
): Mix {
  const { cups = 1, ...rest } = more;
  const roles: MixRole[] = sides.length === 1 ? ['only'] : ['a', 'b'];
  return {
    id: freshId<MixId>(seven),
    ...parts,
    colourwayId: null,
    version: 1,
    baseMl: toMl(cups, 'cup'),
    sides: sides.map((doses, at) => ({
      role: roles[at] ?? 'only',
      name: `Side ${at + 1}`,
      swatch: '#888888',
      plastisolId: null,
      doses: [...doses],
    })),
    nextTime: '',
    ...rest,
  };
}

/** A photo of a mix, 10 mm thick, that was read. */
export function aReadPhoto(
  mix: Mix,
  lab: Lab,
  forecast: Lab | null,
  more: Partial<Photo> & { part?: PhotoReading['part']; fault?: PhotoReading['fault'] } = {},
): Photo {
  const { part = 'only', fault = null, ...rest } = more;
  return {
    id: freshId<PhotoId>(seven),
    ...parts,
    shows: 'bait',
    colourwayId: mix.colourwayId,
    mixId: mix.id,
    materialId: null,
    sessionId: null,
    takenAt: seven,
    widthPx: 100,
    heightPx: 100,
    mediaType: 'image/jpeg',
    isDrawn: false,
    rating: null,
    thicknessMm: 10,
    readings: [{ part, lab, fault, forecast }],
    ...rest,
  };
}

/** What a side truly looks like when some materials are stronger than their swatches say. */
export function trueLab(
  { materials }: Pick<ColourShop, 'materials'>,
  doses: readonly Dose[],
  strengths: Readonly<Record<string, number>>,
  thicknessMm = 10,
): Lab {
  const known = doses.flatMap(({ materialId, amount }) => {
    const material = materials.find(({ id }) => id === materialId);
    if (!material?.optics) return [];
    const strength = strengths[material.name] ?? 1;
    return [{ colourant: material.optics, dosePerCup: amount, strength }];
  });
  return opticsLab(mixOptics(opticsOf(0, 0), known), { thicknessMm, backing: 0.85 });
}
