import { firstUnitOf } from '#calc/dose-steps.ts';
import type { MixBody } from '#calc/mix.ts';
import { clearSwatch } from '#calc/table-mix.ts';
import { oddDose } from '#calc/usual-dose.ts';
import type { Material } from '#model/material.ts';
import type { Dose } from '#model/mix.ts';
import { oddKeyWords } from '#screens/dose-words.ts';
import { shortened } from '#screens/table/shortened.ts';
import type { NamelessMaterial } from '#store/nameless-materials.ts';
import { plainMaterial } from '#store/plain-material.ts';

/** What is given by drops or spoons into a pot; plastisol is its base, hooks and bags are none of it. */
const given = [
  'colourant',
  'flake',
  'scent',
  'salt',
  'softener',
  'hardener',
  'stabiliser',
  'other',
];
const mostDoses = 20;

/** What one press adds: a drop, or an eighth of a teaspoon. */
export function stepOf({ unit }: Dose): number {
  return unit === 'tsp' ? 0.125 : 1;
}

/** Nothing yet of a bottle that nobody wrote down. */
export function doseOfNone({ id, kind, name }: NamelessMaterial): Dose {
  const unit = firstUnitOf(plainMaterial(kind));
  return { materialId: id, name, amount: 0, unit, isPinned: false };
}

/** What can be given, as doses of nothing yet: what is in the pot first. */
export function offeredOf(materials: readonly Material[], first: readonly Dose[]): Dose[] {
  const used = new Set<string>(first.map(({ materialId }) => materialId));
  const others = materials
    .filter(({ id, kind, isAside }) => given.includes(kind) && !isAside && !used.has(id))
    .sort((a, b) => given.indexOf(a.kind) - given.indexOf(b.kind))
    .map(
      (material): Dose => ({
        materialId: material.id,
        name: material.name,
        amount: 0,
        unit: firstUnitOf(material),
        isPinned: false,
      }),
    );
  return [...first, ...others];
}

/** The doses with one of them set; a dose of nothing is no dose. */
export function withAmount(doses: readonly Dose[], one: Dose, amount: number): Dose[] {
  const at = doses.findIndex(({ materialId }) => materialId === one.materialId);
  if (amount <= 0) return doses.filter((_, index) => index !== at);
  if (at === -1) return doses.length < mostDoses ? [...doses, { ...one, amount }] : [...doses];
  return doses.with(at, { ...one, ...doses[at], amount });
}

/** The dose that is far above the usual, in a few words; empty: none is. What is counted up begins below. */
export function oddWordsOf(
  doses: readonly Dose[],
  volumeMl: number,
  others: readonly MixBody[],
): string {
  const side = { role: 'only', name: '', swatch: clearSwatch, plastisolId: null } as const;
  const [odd] = doses
    .flatMap(
      (dose) => oddDose({ baseMl: volumeMl, sides: [{ ...side, doses: [dose] }] }, others) ?? [],
    )
    .filter(({ times }) => times > 1)
    .sort((a, b) => b.times - a.times);
  return odd ? oddKeyWords(shortened(odd.name, 6), odd.times) : '';
}
