import { cavityCount } from '#calc/cavity-layout.ts';
import type { Layout, Material, Mould } from '#model/mould.ts';

/** The parts of a mould that its heat and its volume hang on. */
export type MouldSize = Pick<Mould, 'massG' | 'partMl' | 'sprueMl' | 'material'> & {
  layout: Layout;
};

/** Aluminium 6061 and plaster from data sheets; silicone from memory (methods-heat section 1). */
const bodies: Record<Material, { densityKgPerM3: number; cpJPerKgK: number }> = {
  aluminium: { densityKgPerM3: 2_700, cpJPerKgK: 896 },
  silicone: { densityKgPerM3: 1_100, cpJPerKgK: 1_300 },
  stone: { densityKgPerM3: 1_200, cpJPerKgK: 1_085 },
};

/** Specific heat of the mould's material, J/kgK. */
export function specificHeat(material: Material): number {
  return bodies[material].cpJPerKgK;
}

/** Density of the mould's material, kg/m3. */
export function density(material: Material): number {
  return bodies[material].densityKgPerM3;
}

/**
 * The mould's mass in g and where it comes from. Not weighed: taken from the cavity count, so
 * that 8 cavities in aluminium give the 2.5 kg block of the worked example (methods-heat section 3).
 */
export function mouldMassG(mould: MouldSize): { massG: number; from: 'weighed' | 'cavities' } {
  if (mould.massG !== null) return { massG: mould.massG, from: 'weighed' };
  const aluminiumG = 500 + 250 * cavityCount(mould.layout);
  const lightness = density(mould.material) / density('aluminium');
  return { massG: aluminiumG * lightness, from: 'cavities' };
}

/**
 * Heat lost to the shop per kelvin, W/K: 0.8 for the 2.5 kg block of the worked example, and for
 * other sizes by the surface, which grows with the mass to the power of two thirds.
 */
export function lossWPerK(massG: number): number {
  return 0.8 * (massG / 2_500) ** (2 / 3);
}

/** Volume of one bait, mL; not measured: 9, as in the worked example of methods-heat section 5. */
export function partMlOf(mould: MouldSize): number {
  return mould.partMl ?? 9;
}

/** Sprue and runners of one shot, mL; not measured: 1.5 a cavity (12 for 8, the same example). */
export function sprueMlOf(mould: MouldSize): number {
  return mould.sprueMl ?? 1.5 * cavityCount(mould.layout);
}

/** What one shot takes, mL, with the closed cavities left out. */
export function shotMl(mould: MouldSize & { closed: readonly number[] }): number {
  const working = cavityCount(mould.layout) - mould.closed.length;
  return Math.max(0, working) * partMlOf(mould) + sprueMlOf(mould);
}
