import { roleAt } from '#calc/pot-mix.ts';
import type { Colourway, ColourwayId } from '#model/gear.ts';
import type { Material, MaterialId } from '#model/material.ts';
import type { Mix, MixSide } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';
import type { SharedMaterial, SharedMix } from '#model/shared-mix.ts';
import { type Book, pennedMeta } from '#store/book.ts';
import { type FactsOf, headsOf, newHead } from '#store/heads.ts';
import { announce } from '#store/notice.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { whole } from '#store/whole.ts';

/** A version of a mix as another shop can read it. */
export function sharedOf(
  mix: Mix,
  name: string,
  materials: ReadonlyMap<string, Material>,
): SharedMix {
  const list: SharedMaterial[] = [];
  const places = new Map<string, number>();
  const placeOf = (id: MaterialId, called: string): number => {
    const known = places.get(id);
    if (known !== undefined) return known;
    const head = materials.get(id);
    places.set(id, list.length);
    return list.push(sharedMaterial(head ?? { ...plainMaterial('other'), name: called })) - 1;
  };
  const sides = mix.sides.map(({ role, name: own, swatch, plastisolId, hasRemelt, doses }) => ({
    role,
    name: own,
    swatch,
    plastisol: plastisolId ? placeOf(plastisolId, 'Plastisol') : null,
    ...(hasRemelt ? { hasRemelt } : {}),
    doses: doses.map(({ materialId, name: called, amount, unit, isPinned }) => ({
      material: placeOf(materialId, called),
      amount,
      unit,
      isPinned,
    })),
  }));
  return { made: 'mix', form: 1, name, baseMl: mix.baseMl, materials: list, sides };
}

function sharedMaterial(material: FactsOf<'materials'>): SharedMaterial {
  const { name, kind, flake, swatch, unit, glowsOrChanges } = material;
  return { name, kind, flake, swatch, unit, ...(glowsOrChanges ? { glowsOrChanges } : {}) };
}

/**
 * Which of the materials are on the shelf already, by name, kind and what they are counted in (a
 * powder is no liquid of the same name); null: it would be new.
 */
export function knownMaterials(
  shared: SharedMix,
  materials: readonly Material[],
): (Material | null)[] {
  const alike = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();
  return shared.materials.map(
    ({ name, kind, unit }) =>
      materials.find(
        (own) =>
          own.kind === kind && alike(own.name, name) && (unit === undefined || unit === own.unit),
      ) ?? null,
  );
}

/** Takes a mix in as a new colour, with the materials that the shelf has not. All of it or nothing. */
export async function takeMix(book: Book, shared: SharedMix, at: Instant): Promise<Colourway> {
  const known = knownMaterials(shared, await headsOf(book, 'materials'));
  const materials: Material[] = [];
  for (const [place, { kind, name, flake, swatch, ...told }] of shared.materials.entries()) {
    const plain = plainMaterial(kind);
    const { unit = plain.unit, glowsOrChanges = false } = told;
    const facts = { ...plain, name, flake, swatch, unit, glowsOrChanges };
    // One that is named twice is one material.
    const twin = materials.find(
      (one) => one.name === name && one.kind === kind && one.unit === unit,
    );
    const added = known[place] ?? twin ?? (await newHead(book, 'materials', { facts, at }));
    materials.push(added);
  }
  const sides = shared.sides.map((side): MixSide => {
    const { role, name, swatch, plastisol, hasRemelt, doses } = side;
    return {
      role,
      name,
      swatch,
      ...(hasRemelt ? { hasRemelt } : {}),
      plastisolId: plastisol === null ? null : (materials[plastisol]?.id ?? null),
      doses: doses.flatMap(({ material, amount, unit, isPinned }) => {
        const own = materials[material];
        return own ? [{ materialId: own.id, name: own.name, amount, unit, isPinned }] : [];
      }),
    };
  });
  const colourway = await newHead(book, 'colourways', { facts: lookOf(shared), at });
  const facts = { colourwayId: colourway.id as ColourwayId, version: 1, nextTime: '' };
  const mix = await newHead(book, 'mixes', {
    facts: { ...facts, baseMl: shared.baseMl, sides },
    at,
  });
  const stores = ['materials', 'colourways', 'mixes', 'meta'] as const;
  const tx = book.db.transaction(stores, 'readwrite', { durability: 'strict' });
  await whole(tx, [
    ...materials
      .filter((one) => !known.includes(one))
      .map((one) => () => tx.objectStore('materials').put(one)),
    () => tx.objectStore('colourways').put(colourway),
    () => tx.objectStore('mixes').put(mix),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce(...stores);
  return colourway;
}

/** The look of a shared mix: its only side, or A and B. */
export function lookOf({ name, sides }: SharedMix): FactsOf<'colourways'> {
  const count = sides.some(({ role }) => role === 'b') ? 2 : 1;
  const own = [0, 1].slice(0, count).flatMap((index) => {
    const side = sides.find(({ role }) => role === roleAt(index, count));
    return side ? [{ name: side.name, swatch: side.swatch }] : [];
  });
  const [first] = sides;
  const spare = { name, swatch: first?.swatch ?? '#d8d2c2' };
  return { name, sides: own.length === count ? own : [spare] };
}
