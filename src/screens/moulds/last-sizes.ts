import type { Mould } from '#model/mould.ts';
import { type LengthUnit, lengthWords } from '#screens/lengths.ts';
import { clockWords } from '#screens/words.ts';

/** What stood in each field of a mould the last time, in words; what was never told is missing. */
export interface LastSizes {
  massG?: string;
  partMl?: string;
  sprueMl?: string;
  thickness?: string;
  thinnest?: string;
  setTime?: string;
}

/**
 * For a new mould, what the last one was given; for one that was poured, how long it stayed shut the
 * last time: its other facts stand in the fields themselves.
 */
export function lastSizes(
  mould: Mould | null,
  others: readonly Mould[],
  openSec: number | null,
  unit: LengthUnit,
): LastSizes {
  if (mould) return openSec === null ? {} : { setTime: `opened after ${clockWords(openSec)}` };
  const last = others.toSorted((a, b) => a.createdAt - b.createdAt).at(-1);
  if (!last) return {};
  const { name, massG, partMl, sprueMl, section, thinnestMm, setSec } = last;
  const of = (value: number | null, words: (value: number) => string) =>
    value === null ? undefined : `${words(value)}, ${name}`;
  const found = {
    massG: of(massG, (g) => `${g} g`),
    partMl: of(partMl, (ml) => `${ml} mL`),
    sprueMl: of(sprueMl, (ml) => `${ml} mL`),
    thickness: of(section?.thicknessMm ?? null, (mm) => lengthWords(mm, unit)),
    thinnest: of(thinnestMm ?? null, (mm) => lengthWords(mm, unit)),
    setTime: of(setSec, clockWords),
  };
  return Object.fromEntries(Object.entries(found).filter(([, words]) => words !== undefined));
}
