import * as z from 'zod/mini';
import { type Colourway, colourwayFacts } from '#model/gear.ts';
import { type Refusals, readForm } from '#screens/form.ts';
import type { FactsOf } from '#store/heads.ts';

/** What the form holds while it is typed. */
export interface TypedColour extends Record<string, unknown> {
  name: string;
  isPair: boolean;
  nameA: string;
  swatchA: string;
  nameB: string;
  swatchB: string;
}

const facts = z.object(colourwayFacts);

/** What a swatch shows before one is chosen. */
const firstSwatches = { a: '#8a6a45', b: '#e9e4d4' };

/** The form of a colourway, or of a new one. */
export function typedColour(colourway: Colourway | null): TypedColour {
  const [a, b] = colourway?.sides ?? [];
  return {
    name: colourway?.name ?? '',
    isPair: b !== undefined,
    nameA: a?.name ?? '',
    swatchA: a?.swatch ?? firstSwatches.a,
    nameB: b?.name ?? '',
    swatchB: b?.swatch ?? firstSwatches.b,
  };
}

/** The colourway that was typed, or a sentence for each field that cannot be. */
export function colourFrom(
  typed: TypedColour,
): { value: FactsOf<'colourways'>; refusals: null } | { value: null; refusals: Refusals } {
  const { name, isPair, nameA, swatchA, nameB, swatchB } = typed;
  const a = { name: isPair ? nameA : name, swatch: swatchA };
  const read = readForm(facts, {
    name,
    sides: isPair ? [a, { name: nameB, swatch: swatchB }] : [a],
  });
  return read.value ? read : { value: null, refusals: renamed(read.refusals, isPair) };
}

/** Refusals by the schema's paths, by the fields of the form. */
function renamed(refusals: Refusals, isPair: boolean): Refusals {
  const fields: Record<string, string> = {
    'sides.0.name': isPair ? 'nameA' : 'name',
    'sides.0.swatch': 'swatchA',
    'sides.1.name': 'nameB',
    'sides.1.swatch': 'swatchB',
  };
  return Object.fromEntries(
    Object.entries(refusals).map(([path, sentence]) => [fields[path] ?? path, sentence]),
  );
}
