import * as z from 'zod/mini';
import {
  type Material,
  type MaterialKind,
  materialFacts,
  type StockUnit,
} from '#model/material.ts';
import {
  type AmountUnit,
  amountFrom,
  amountText,
  centsFrom,
  moneyWords,
  typedUnits,
  type Units,
  unitFor,
} from '#screens/amounts.ts';
import { type Refusals, readForm } from '#screens/form.ts';
import { numberFrom } from '#screens/number-text.ts';
import type { FactsOf } from '#store/heads.ts';

/** What the form of a material holds while it is typed. */
export interface TypedMaterial extends Record<string, unknown> {
  name: string;
  kind: MaterialKind;
  stockUnit: StockUnit;
  packageQty: string;
  packageUnit: AmountUnit;
  packageMoney: string;
  reorder: string;
  reorderUnit: AmountUnit;
  /** Width of a flake in mm; empty: not told. */
  flakeMm: string;
  flakeCut: 'hex' | 'square';
  density: string;
  hasSwatch: boolean;
  swatch: string;
  glowsOrChanges: boolean;
  isAside: boolean;
}

const facts = z.object(materialFacts);
const firstSwatch = '#8a6a45';
const aNumber = 'Write a number, like 12 or 12.5. Or leave it empty.';

/** Widths that flake is sold in, inch: named in the trade, common practice, no source. */
export const flakeInches = [0.008, 0.015, 0.025, 0.035, 0.04, 0.062, 0.094] as const;

/** The unit that a kind is usually stocked in. */
export const usualUnit: Readonly<Record<MaterialKind, StockUnit>> = {
  plastisol: 'mL',
  softener: 'mL',
  hardener: 'mL',
  stabiliser: 'mL',
  colourant: 'mL',
  flake: 'g',
  scent: 'mL',
  salt: 'g',
  hook: 'piece',
  bag: 'piece',
  other: 'piece',
};

/** The form of a material, or of a new one. */
export function typedMaterial(material: Material | null, units: Units): TypedMaterial {
  const stockUnit = material?.unit ?? 'mL';
  const own = material?.package ?? null;
  const reorderAt = material?.reorderAt ?? null;
  const packageUnit = unitFor(own?.qty ?? 0, stockUnit, units);
  const reorderUnit = unitFor(reorderAt ?? own?.qty ?? 0, stockUnit, units);
  return {
    name: material?.name ?? '',
    kind: material?.kind ?? 'plastisol',
    stockUnit,
    packageQty: own ? amountText(own.qty, packageUnit) : '',
    packageUnit,
    packageMoney: own ? moneyWords(own.cents) : '',
    reorder: reorderAt === null ? '' : amountText(reorderAt, reorderUnit),
    reorderUnit,
    flakeMm: material?.flake ? String(material.flake.acrossMm) : '',
    flakeCut: material?.flake?.cut ?? 'hex',
    density: material?.densityGPerMl == null ? '' : String(material.densityGPerMl),
    hasSwatch: material?.swatch != null,
    swatch: material?.swatch ?? firstSwatch,
    glowsOrChanges: material?.glowsOrChanges ?? false,
    isAside: material?.isAside ?? false,
  };
}

/** The form after its unit of stock has changed: the units of its fields follow. */
export function withUnit(stockUnit: StockUnit, units: Units): Partial<TypedMaterial> {
  const unit = typedUnits(stockUnit, units)[0] ?? 'piece';
  return { stockUnit, packageUnit: unit, reorderUnit: unit };
}

/** The facts that were typed, or a sentence for each field that does not fit. */
export function materialFrom(
  typed: TypedMaterial,
  material: Material | null,
): { value: FactsOf<'materials'>; refusals: null } | { value: null; refusals: Refusals } {
  const unread: Refusals = {};
  const hasPackage = typed.packageQty.trim() !== '' || typed.packageMoney.trim() !== '';
  const qty = keptAmount(typed.packageQty, typed.packageUnit, material?.package?.qty);
  const cents = centsFrom(typed.packageMoney);
  if (hasPackage && qty === null) unread.packageQty = 'Write how much is in it, like 5 or 0.5.';
  if (hasPackage && cents === null) unread.packageMoney = 'Write what it costs, like 9.80.';
  const reorderAt = emptyOr(typed.reorder, (text) =>
    keptAmount(text, typed.reorderUnit, material?.reorderAt),
  );
  if (reorderAt === undefined) unread.reorder = aNumber;
  const isFlake = typed.kind === 'flake';
  const acrossMm = emptyOr(isFlake ? typed.flakeMm : '', numberFrom);
  if (acrossMm === undefined) unread.flakeMm = aNumber;
  const densityGPerMl = emptyOr(typed.stockUnit === 'mL' ? typed.density : '', numberFrom);
  if (densityGPerMl === undefined) unread.density = aNumber;
  const read = readForm(facts, {
    dropMl: null,
    teaspoonG: null,
    optics: null,
    ...(material ? factsOf(material) : {}),
    name: typed.name,
    kind: typed.kind,
    unit: typed.stockUnit,
    package: hasPackage ? { qty: qty ?? Number.NaN, cents: cents ?? Number.NaN } : null,
    reorderAt: reorderAt ?? null,
    flake: acrossMm == null ? null : { acrossMm, cut: typed.flakeCut },
    densityGPerMl: densityGPerMl ?? null,
    swatch: typed.hasSwatch ? typed.swatch : null,
    glowsOrChanges: typed.glowsOrChanges,
    isAside: typed.isAside,
  });
  const refusals = { ...renamed(read.refusals ?? {}), ...unread };
  if (!read.value || Object.keys(refusals).length > 0) return { value: null, refusals };
  return { value: read.value, refusals: null };
}

/** Only what a person set, for the schema. */
function factsOf(material: Material): object {
  const fields = Object.keys(materialFacts) as (keyof typeof materialFacts)[];
  return Object.fromEntries(fields.map((field) => [field, material[field]]));
}

/** A typed amount; text that was not touched keeps the exact one. */
function keptAmount(text: string, unit: AmountUnit, own: number | null | undefined): number | null {
  return own != null && text === amountText(own, unit) ? own : amountFrom(text, unit);
}

/** Null: empty; undefined: not understood. */
function emptyOr(text: string, read: (text: string) => number | null): number | null | undefined {
  return text.trim() === '' ? null : (read(text) ?? undefined);
}

/** Refusals by the schema's paths, by the fields of the form. */
function renamed(refusals: Refusals): Refusals {
  const fields: Record<string, string> = {
    'package.qty': 'packageQty',
    'package.cents': 'packageMoney',
    reorderAt: 'reorder',
    'flake.acrossMm': 'flakeMm',
    densityGPerMl: 'density',
  };
  return Object.fromEntries(
    Object.entries(refusals).map(([path, sentence]) => [fields[path] ?? path, sentence]),
  );
}
