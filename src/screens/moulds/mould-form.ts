import type { Layout, Mould } from '#model/mould.ts';
import type { Refusals } from '#screens/form.ts';
import { numberFrom } from '#screens/number-text.ts';
import type { FactsOf } from '#store/heads.ts';
import { plainMould } from '#store/start.ts';

/** What the form holds while it is typed: text where there is typing. */
export interface TypedMould extends Record<string, unknown> {
  name: string;
  layout: Layout;
  opens: Mould['opens'];
  material: Mould['material'];
  massG: string;
  partMl: string;
  sprueMl: string;
  thicknessMm: string;
  sectionShape: 'flat' | 'round';
  setTime: string;
}

/** The form of a mould, or of a new one. */
export function typedMould(mould: Mould | null): TypedMould {
  const facts = mould ?? plainMould({ rows: 4, cols: 2 });
  return {
    name: facts.name,
    layout: facts.layout,
    opens: facts.opens,
    material: facts.material,
    massG: textOf(facts.massG),
    partMl: textOf(facts.partMl),
    sprueMl: textOf(facts.sprueMl),
    thicknessMm: textOf(facts.section?.thicknessMm ?? null),
    sectionShape: facts.section?.shape ?? 'round',
    setTime: facts.setSec === null ? '' : timeText(facts.setSec),
  };
}

/** The facts that were typed, or a sentence for each field that is not understood. */
export function mouldFrom(
  typed: TypedMould,
  mould: Mould | null,
): { facts: FactsOf<'moulds'>; refusals: Refusals } {
  const refusals: Refusals = {};
  const number = (field: 'massG' | 'partMl' | 'sprueMl' | 'thicknessMm') => {
    if (typed[field].trim() === '') return null;
    const read = numberFrom(typed[field]);
    if (read === null) refusals[field] = 'Write a number, like 12 or 12,5. Or leave it empty.';
    return read;
  };
  const massG = number('massG');
  const partMl = number('partMl');
  const sprueMl = number('sprueMl');
  const thicknessMm = number('thicknessMm');
  const setSec = secondsFrom(typed.setTime);
  if (setSec === undefined)
    refusals.setTime = 'Write minutes and seconds, like 3:15. Or leave it empty.';
  const old = mould ?? plainMould({ rows: 1, cols: 1 });
  const cavities =
    typed.layout.kind === 'grid'
      ? typed.layout.rows * typed.layout.cols
      : typed.layout.spots.length;
  return {
    facts: {
      name: typed.name,
      layout: typed.layout,
      opens: typed.opens,
      material: typed.material,
      massG,
      partMl,
      sprueMl,
      section: thicknessMm === null ? null : { shape: typed.sectionShape, thicknessMm },
      closed: old.closed.filter((cavity) => cavity <= cavities),
      setSec: setSec ?? null,
      hasNoClock: setSec ? false : old.hasNoClock,
      heat: old.heat,
    },
    refusals,
  };
}

/** Seconds from `3:15` or `195`; null: empty; undefined: not understood. */
function secondsFrom(text: string): number | null | undefined {
  const plain = text.trim();
  if (plain === '') return null;
  const parts = /^(\d{1,2}):([0-5]\d)$/.exec(plain);
  if (parts) return Number(parts[1]) * 60 + Number(parts[2]);
  return /^\d{1,4}$/.test(plain) ? Number(plain) : undefined;
}

function timeText(sec: number): string {
  return `${Math.floor(sec / 60)}:${String(sec % 60).padStart(2, '0')}`;
}

function textOf(value: number | null): string {
  return value === null ? '' : String(value);
}
