import * as z from 'zod/mini';
import { cavityCount } from '#calc/cavity-layout.ts';
import { type Layout, type Mould, mouldFacts } from '#model/mould.ts';
import { type Refusals, readForm } from '#screens/form.ts';
import { boundIn, type LengthUnit, lengthFrom, lengthText } from '#screens/lengths.ts';
import { numberFrom } from '#screens/number-text.ts';
import { clockWords } from '#screens/words.ts';
import type { FactsOf } from '#store/heads.ts';
import { plainMould } from '#store/start.ts';

export type Grid = Extract<Layout, { kind: 'grid' }>;
export type Spots = Extract<Layout, { kind: 'free' }>['spots'];

/** What the form holds while it is typed: text where there is typing. */
export interface TypedMould extends Record<string, unknown> {
  name: string;
  /** Both ways to lay the cavities out are kept, so that changing one's mind loses nothing. */
  isFree: boolean;
  grid: Grid;
  spots: Spots;
  opens: Mould['opens'];
  material: Mould['material'];
  massG: string;
  partMl: string;
  sprueMl: string;
  /** In the person's unit of length. */
  thickness: string;
  thinnest: string;
  sectionShape: 'flat' | 'round';
  setTime: string;
  makes: NonNullable<Mould['makes']> | null;
  needs: NonNullable<Mould['needs']>;
  fill: NonNullable<Mould['fill']>;
}

const facts = z.object(mouldFacts);
const numbers = ['massG', 'partMl', 'sprueMl', 'thickness', 'thinnest'] as const;
const firstGrid: Grid = { kind: 'grid', rows: 4, cols: 2, run: 'down', from: 'top-left' };

/** The form of a mould, or of a new one. */
export function typedMould(mould: Mould | null, unit: LengthUnit): TypedMould {
  const { name, layout, opens, material, massG, partMl, sprueMl, section, setSec } =
    mould ?? plainMould(firstGrid);
  return {
    name,
    isFree: layout.kind === 'free',
    grid: layout.kind === 'grid' ? layout : firstGrid,
    spots: layout.kind === 'free' ? layout.spots : [],
    opens,
    material,
    massG: textOf(massG),
    partMl: textOf(partMl),
    sprueMl: textOf(sprueMl),
    thickness: lengthText(section?.thicknessMm ?? null, unit),
    thinnest: lengthText(mould?.thinnestMm ?? null, unit),
    sectionShape: section?.shape ?? 'round',
    setTime: setSec === null ? '' : clockWords(setSec),
    makes: mould?.makes ?? null,
    needs: mould?.needs ?? [],
    fill: mould?.fill ?? 'injected',
  };
}

/** Where the cavities lie, as it is typed. */
export function layoutOf({ isFree, grid, spots }: TypedMould): Layout {
  return isFree ? { kind: 'free', spots } : grid;
}

/** The facts that were typed, or a sentence for each field that is not understood or cannot be. */
export function mouldFrom(
  typed: TypedMould,
  mould: Mould | null,
  unit: LengthUnit,
): { value: FactsOf<'moulds'>; refusals: null } | { value: null; refusals: Refusals } {
  const unread: Refusals = {};
  const wasMm = {
    thickness: mould?.section?.thicknessMm ?? null,
    thinnest: mould?.thinnestMm ?? null,
  };
  const amounts = numbers.map((field) => {
    if (typed[field].trim() === '') return null;
    const read =
      field === 'thickness' || field === 'thinnest'
        ? lengthFrom(typed[field], unit, wasMm[field])
        : numberFrom(typed[field]);
    if (read === null) unread[field] = 'Write a number, like 12 or 12.5. Or leave it empty.';
    return read;
  });
  const [massG = null, partMl = null, sprueMl = null, thicknessMm = null, thinnestMm = null] =
    amounts;
  if (thicknessMm !== null && thinnestMm !== null && thinnestMm > thicknessMm) {
    unread.thinnest = 'The thinnest part is not thicker than the thickest.';
  }
  const setSec = secondsFrom(typed.setTime);
  if (setSec === undefined) {
    unread.setTime = 'Write minutes and seconds, like 3:15. Or leave it empty.';
  }
  const layout = layoutOf(typed);
  const old = mould ?? plainMould(firstGrid);
  const read = readForm(facts, {
    name: typed.name,
    layout,
    opens: typed.opens,
    material: typed.material,
    massG,
    partMl,
    sprueMl,
    section: thicknessMm === null ? null : { shape: typed.sectionShape, thicknessMm },
    thinnestMm,
    closed: old.closed.filter((cavity) => cavity <= cavityCount(layout)),
    setSec: setSec ?? null,
    hasNoClock: setSec ? false : old.hasNoClock,
    heat: old.heat,
    makes: typed.makes,
    needs: typed.needs,
    fill: typed.fill,
  });
  const refusals = { ...renamed(read.refusals ?? {}, unit), ...unread };
  if (!read.value || Object.keys(refusals).length > 0) return { value: null, refusals };
  return { value: read.value, refusals: null };
}

/** Refusals by the schema's paths, by the fields of the form, lengths in the person's unit. */
function renamed(refusals: Refusals, unit: LengthUnit): Refusals {
  const fields: Record<string, string> = {
    'section.thicknessMm': 'thickness',
    thinnestMm: 'thinnest',
    setSec: 'setTime',
    'layout.spots': 'spots',
  };
  return Object.fromEntries(
    Object.entries(refusals).map(([path, sentence]) => [
      fields[path] ?? path,
      boundIn(sentence, unit),
    ]),
  );
}

/** Seconds from `3:15` or `195`; null: empty; undefined: not understood. */
function secondsFrom(text: string): number | null | undefined {
  const plain = text.trim();
  if (plain === '') return null;
  const parts = /^(\d{1,2}):([0-5]\d)$/.exec(plain);
  if (parts) return Number(parts[1]) * 60 + Number(parts[2]);
  return /^\d{1,4}$/.test(plain) ? Number(plain) : undefined;
}

function textOf(value: number | null): string {
  return value === null ? '' : String(value);
}
