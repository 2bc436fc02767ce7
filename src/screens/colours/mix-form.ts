import * as z from 'zod/mini';
import { firstUnitOf } from '#calc/dose-steps.ts';
import { roleAt } from '#calc/pot-mix.ts';
import { toMl } from '#calc/units.ts';
import type { Colourway } from '#model/gear.ts';
import type { Material, MaterialId } from '#model/material.ts';
import { type Dose, type Mix, type MixRole, type MixSide, mixFacts } from '#model/mix.ts';
import { handNumber } from '#screens/amount-text.ts';
import { tidy } from '#screens/dose-words.ts';
import { type Refusals, readForm } from '#screens/form.ts';
import type { MixDraft } from '#store/mixes.ts';

/** A dose while it is written: its amount as text. */
export interface TypedDose extends Omit<Dose, 'amount'> {
  /** Tells rows apart while they come and go. */
  key: number;
  text: string;
}
export interface TypedSide extends Omit<MixSide, 'doses'> {
  doses: TypedDose[];
}
export interface TypedMix extends Record<string, unknown> {
  baseMl: number;
  sides: TypedSide[];
  nextTime: string;
}

let rows = 0;
const nextKey = () => {
  rows += 1;
  return rows;
};

/**
 * The form of a colour's mix as its newest version stands, or of a first one: two cups of nothing yet,
 * in the plastisol `usualId`.
 */
export function typedMix(
  colourway: Colourway,
  mix: Mix | null,
  usualId: MaterialId | null,
): TypedMix {
  const own = colourway.sides.map((side, index): TypedSide => {
    const role = roleAt(index, colourway.sides.length);
    const written = mix?.sides.find((one) => one.role === role);
    return {
      role,
      ...side,
      plastisolId: written ? written.plastisolId : usualId,
      ...(written?.hasRemelt ? { hasRemelt: true } : {}),
      doses: (written?.doses ?? []).map(typedDose),
    };
  });
  const parts = (mix?.sides ?? [])
    .filter(({ role }) => role === 'core' || role === 'tail')
    .map((side) => ({ ...side, doses: side.doses.map(typedDose) }));
  return {
    baseMl: mix?.baseMl ?? toMl(2, 'cup'),
    sides: [...own, ...parts],
    nextTime: mix?.nextTime ?? '',
  };
}

/** A part of its own, poured from a pot of its own. */
export function typedPart(
  role: MixRole,
  colourway: Colourway,
  plastisolId: MaterialId | null,
): TypedSide {
  const [first] = colourway.sides;
  const name = role === 'core' ? 'Core' : 'Tail';
  return { role, name, swatch: first?.swatch ?? '#d8d2c2', plastisolId, doses: [] };
}

/** One of a material: a drop of a liquid colourant, an eighth of a teaspoon of all else. */
export function firstDose(material: Pick<Material, 'id' | 'name' | 'kind' | 'unit'>): TypedDose {
  const { id, name } = material;
  const unit = firstUnitOf(material);
  return {
    key: nextKey(),
    materialId: id,
    name,
    unit,
    isPinned: false,
    text: unit === 'drop' ? '1' : '1/8',
  };
}

/** The amount one step up or down from what is typed; what cannot be read begins again at one step. */
export function stepped(dose: TypedDose, by: -1 | 1): string {
  const percent = percentFrom(dose.text);
  if (percent !== null) return `${tidy3(Math.max(0.5, percent * 100 + by * 0.5))} %`;
  const step = dose.unit === 'drop' ? 1 : dose.unit === 'tsp' ? 0.125 : 0.5;
  const now = handNumber(dose.text) ?? 0;
  return String(tidy3(Math.max(step, now + by * step)));
}

/** The same number as a per cent, or in a unit. */
export function inUnit(dose: TypedDose, unit: TypedDose['unit'] | '%'): TypedDose {
  const number = dose.text.trim().replace(/\s*%$/, '');
  return unit === '%'
    ? { ...dose, unit: 'g', text: `${number} %` }
    : { ...dose, unit, text: number };
}

/**
 * A share from a typed per cent of the plastisol's weight, `3 %`; null: it is none. It is kept as the
 * grams that it makes, unrounded.
 */
export function percentFrom(text: string): number | null {
  const plain = text.trim();
  const number = plain.endsWith('%') ? handNumber(plain.slice(0, -1)) : null;
  return number === null ? null : number / 100;
}

/** The mix that was typed, or a sentence for each dose that cannot be, by `sides.0.doses.1`. */
export function mixFrom(
  typed: TypedMix,
  basisGOf: (side: TypedSide) => number,
): { value: MixDraft; refusals: null } | { value: null; refusals: Refusals } {
  const refusals: Refusals = {};
  const sides = typed.sides.map((side, at) => ({
    ...side,
    doses: side.doses.map(({ key: _key, text, ...dose }, row) => {
      const share = percentFrom(text);
      const amount = share === null ? handNumber(text) : share * basisGOf(side);
      if (amount === null || amount <= 0) {
        refusals[`sides.${at}.doses.${row}`] = 'Write a number above 0, such as 12, 1 1/2 or 3 %.';
      }
      return { ...dose, amount: amount ?? 0, ...(share === null ? {} : { unit: 'g' as const }) };
    }),
  }));
  if (Object.keys(refusals).length > 0) return { value: null, refusals };
  const read = readForm(facts, { baseMl: typed.baseMl, sides, nextTime: typed.nextTime });
  if (read.value) return read;
  return {
    value: null,
    refusals: Object.fromEntries(
      Object.entries(read.refusals).map(([path, says]) => [
        path.replace(/^(sides\.\d+\.doses\.\d+)\..*/, '$1'),
        says,
      ]),
    ),
  };
}

const { baseMl, sides: sidesOf, nextTime } = mixFacts;
const facts = z.object({ baseMl, sides: sidesOf, nextTime });

function typedDose({ amount, ...dose }: Dose): TypedDose {
  return { ...dose, key: nextKey(), text: String(tidy3(amount)) };
}

/** A number to three places: an eighth of a teaspoon is 0.125. */
function tidy3(value: number): number {
  return value >= 10 ? tidy(value) : Number(value.toFixed(3));
}
