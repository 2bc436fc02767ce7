import * as z from 'zod/mini';
import { farOff } from '#calc/far-off.ts';
import {
  dropMlFrom,
  dropMlOf,
  type Measured,
  teaspoonGFrom,
  teaspoonGOf,
} from '#calc/stock-measure.ts';
import { type Material, materialFacts } from '#model/material.ts';
import { type AmountUnit, amountFrom, type Units } from '#screens/amounts.ts';
import { type Refusals, readForm } from '#screens/form.ts';
import { numberFrom } from '#screens/number-text.ts';

/** Which of the two is measured: liquids by the drop, powders and flake by the level teaspoon. */
export type MeasureKind = 'drop' | 'teaspoon';

/** What the form holds: so many of them fill or weigh so much. */
export interface TypedMeasure extends Record<string, unknown> {
  count: string;
  amount: string;
  unit: AmountUnit;
}

/** What a material is dosed with; null: by neither. */
export function measureKindOf({ unit, kind }: Material): MeasureKind | null {
  if (unit === 'g') return 'teaspoon';
  return unit === 'mL' && kind !== 'plastisol' ? 'drop' : null;
}

/** An empty form: 50 drops or 5 teaspoons, on the scale. */
export function typedMeasure(kind: MeasureKind, units: Units): TypedMeasure {
  return { count: kind === 'drop' ? '50' : '5', amount: '', unit: units.mass };
}

/** What the drops or teaspoons may be measured in. */
export function measureUnits(kind: MeasureKind, units: Units): readonly AmountUnit[] {
  return kind === 'drop' ? [units.mass, 'mL', 'tsp'] : [units.mass];
}

/** `0.048 mL, as you measured`, or the usual one. */
export function measureWords(kind: MeasureKind, material: Material): string {
  if (kind === 'drop') {
    const size = `${Number(dropMlOf(material).toFixed(4))} mL`;
    return material.dropMl === null ? `${size}, the usual drop: 20 to 1 mL.` : `${size}, your own.`;
  }
  const weight = `${Number(teaspoonGOf(material).toFixed(2))} g`;
  return material.teaspoonG === null
    ? `${weight}, the usual one. Weigh yours: they differ a lot.`
    : `${weight}, your own.`;
}

/** What was measured the last time: `0.048 mL a drop`; undefined: nothing was. */
export function lastMeasureWords(kind: MeasureKind, material: Material): string | undefined {
  const own = kind === 'drop' ? material.dropMl : material.teaspoonG;
  if (own === null) return undefined;
  return kind === 'drop'
    ? `${Number(own.toFixed(4))} mL a drop`
    : `${Number(own.toFixed(2))} g a teaspoon`;
}

type Changes = Partial<Pick<Material, 'dropMl' | 'teaspoonG'>>;

/** The drop or teaspoon that was measured, or a sentence for each field that does not fit. */
export function measureFrom(
  kind: MeasureKind,
  typed: TypedMeasure,
  material: Measured,
): { changes: Changes; refusals: null } | { changes: null; refusals: Refusals } {
  const count = numberFrom(typed.count);
  const amount = amountFrom(typed.amount, typed.unit);
  const refusals: Refusals = {};
  if (count === null || count <= 0) refusals.count = 'Write how many, like 50.';
  if (amount === null || amount <= 0) refusals.amount = 'Write a number above 0, like 2.4.';
  if (count === null || amount === null || Object.keys(refusals).length > 0) {
    return { changes: null, refusals };
  }
  if (kind === 'teaspoon') {
    return within({ teaspoonG: teaspoonGFrom({ teaspoons: count, g: amount }) });
  }
  const isWeighed = typed.unit === 'g' || typed.unit === 'oz';
  const measured = isWeighed ? { drops: count, g: amount } : { drops: count, mL: amount };
  return within({ dropMl: dropMlFrom(measured, material) });
}

/** One line when it is far from the usual; empty: nothing to say. */
export function oddMeasureWords(changes: Changes, material: Material): string {
  const usual = { ...material, dropMl: null, teaspoonG: null };
  const [value, of] =
    'dropMl' in changes
      ? [changes.dropMl ?? 0, dropMlOf(usual)]
      : [changes.teaspoonG ?? 0, teaspoonGOf(usual)];
  if (farOff(value, [of]) === null) return '';
  return `That is ${value > of ? 'over 5 times' : 'under a fifth of'} the usual. Fine if it is so.`;
}

function within(changes: Changes): ReturnType<typeof measureFrom> {
  const [field] = Object.keys(changes) as (keyof Changes)[];
  if (!field) return { changes: null, refusals: {} };
  const read = readForm(z.object({ [field]: materialFacts[field] }), changes);
  if (read.value) return { changes, refusals: null };
  return { changes: null, refusals: { amount: `${read.refusals[field]} Count again.` } };
}
