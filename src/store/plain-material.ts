import type { MaterialKind } from '#model/material.ts';
import type { FactsOf } from '#store/heads.ts';

/** A material of which only the kind is known. */
export function plainMaterial(kind: MaterialKind): FactsOf<'materials'> {
  const isCounted = kind === 'hook' || kind === 'bag';
  const isWeighed = kind === 'flake' || kind === 'salt';
  return {
    name: '',
    kind,
    unit: isCounted ? 'piece' : isWeighed ? 'g' : 'mL',
    package: null,
    reorderAt: null,
    dropMl: null,
    teaspoonG: null,
    flake: null,
    swatch: null,
    glowsOrChanges: false,
    optics: null,
    isAside: false,
  };
}
