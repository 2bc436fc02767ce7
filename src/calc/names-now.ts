import type { Material } from '#model/material.ts';
import type { Dose } from '#model/mix.ts';

/** How materials are called by now, by id. */
export type NamesNow = ReadonlyMap<string, Pick<Material, 'name'>>;

/**
 * A mix whose doses are called as their materials are by now: one that had no name when it was given
 * has one later. What is not on the shelf any more keeps the name of its dose.
 */
export function calledNow<T extends { sides: readonly { doses: readonly Dose[] }[] }>(
  mix: T,
  materials: NamesNow,
): T {
  const sides = mix.sides.map((side) => ({
    ...side,
    doses: side.doses.map((dose) => {
      const name = nameNow(dose, materials);
      return name === dose.name ? dose : { ...dose, name };
    }),
  }));
  return { ...mix, sides };
}

/** How the material of a dose is called by now. */
export function nameNow({ materialId, name }: Dose, materials?: NamesNow): string {
  return materials?.get(materialId)?.name ?? name;
}

export function byId<T extends { id: string }>(materials: readonly T[]): Map<string, T> {
  return new Map(materials.map((one) => [one.id, one]));
}
