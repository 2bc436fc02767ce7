import type { Layout } from '#model/mould.ts';
import type { FactsOf } from '#store/heads.ts';
import { firstSettings, type SettingsFacts } from '#store/settings.ts';

/** A mould of the shop and the time that its owner is used to keep it shut. */
export interface ShopMould {
  facts: FactsOf<'moulds'>;
  usualSec: number;
}

/** Three cups. */
const potMl = 709.764711;

/** How the shop likes things. */
export const settings: SettingsFacts = { ...firstSettings, heatLimit: 6, potMl };

/** Seven moulds: aluminium of 4, 8 and 12 cavities, one of silicone, and one for the parts of baits. */
export const moulds = {
  grub: aluminium('Grub 50', [2, 4], 1_700, {
    section: { shape: 'round', thicknessMm: 11 },
    partMl: 6.5,
    sprueMl: 12,
    setSec: 150,
    usualSec: 150,
  }),
  shad: aluminium('Shad 7', [1, 4], 2_550, {
    section: { shape: 'round', thicknessMm: 14 },
    partMl: 21,
    sprueMl: 16,
    setSec: 210,
    usualSec: 210,
  }),
  leaf: aluminium('Leaf tail', [2, 6], 1_700, {
    section: { shape: 'flat', thicknessMm: 6 },
    partMl: 4.2,
    sprueMl: 16,
    thinnestMm: 2,
    setSec: 130,
    usualSec: 130,
  }),
  reed: aluminium('Reed stick 90', [2, 4], 1_950, {
    section: null,
    partMl: 9,
    sprueMl: 12,
    setSec: null,
    usualSec: 165,
  }),
  craw: aluminium('Bank craw 60', [2, 2], null, {
    section: { shape: 'round', thicknessMm: 12 },
    partMl: 12.5,
    sprueMl: 10,
    setSec: 150,
    usualSec: 150,
  }),
  toad: silicone('Toad 45', [2, 2], {
    section: { shape: 'round', thicknessMm: 16 },
    partMl: 14,
    sprueMl: 12,
    setSec: 240,
    usualSec: 240,
  }),
  fin: aluminium('Fin insert', [2, 6], 600, {
    section: { shape: 'flat', thicknessMm: 3 },
    partMl: 1.2,
    sprueMl: 9,
    setSec: 90,
    usualSec: 90,
    makes: 'part',
  }),
} satisfies Record<string, ShopMould>;
export type MouldKey = keyof typeof moulds;

/** Which baits take parts: of which mould, and how many each. */
export const takes = { body: 'craw', part: 'fin', each: 2 } as const satisfies {
  body: MouldKey;
  part: MouldKey;
  each: number;
};

const barrel = { capacityMl: 118.294118, boreMm: 38, isTwin: false };

/** Two injectors of one size; which of them fills worse is for the log to tell. */
export const injectors = {
  blue: { name: 'Blue handle', ...barrel },
  green: { name: 'Green handle', ...barrel },
} satisfies Record<string, FactsOf<'injectors'>>;
export type InjectorKey = keyof typeof injectors;

/** Ten colourways, two of them laminates. */
export const colourways = {
  peat: plain('Peat brown', '#5b4128'),
  pearl: plain('Pearl', '#e9e4d8'),
  inkRust: laminate('Ink/rust', ['Ink', '#23242f'], ['Rust', '#9a4a22']),
  slate: plain('Slate', '#5d6a72'),
  slateCider: laminate('Slate/cider', ['Slate', '#5d6a72'], ['Cider', '#c98a2e']),
  cider: plain('Cider', '#c98a2e'),
  dusk: plain('Dusk', '#6a4f77'),
  milk: plain('Milk', '#f4f1e6'),
  moss: plain('Moss', '#63702f'),
  barley: plain('Barley', '#d6bd7a'),
} satisfies Record<string, FactsOf<'colourways'>>;
export type ColourKey = keyof typeof colourways;

type Given = Pick<
  FactsOf<'moulds'>,
  'section' | 'partMl' | 'sprueMl' | 'setSec' | 'makes' | 'thinnestMm'
> & {
  usualSec: number;
};

function aluminium(
  name: string,
  grid: readonly [rows: number, cols: number],
  massG: number | null,
  { usualSec, ...given }: Given,
): ShopMould {
  const facts = { ...given, name, layout: gridOf(grid), massG, material: 'aluminium' } as const;
  return {
    facts: { ...facts, opens: 'same', closed: [], hasNoClock: false, heat: null },
    usualSec,
  };
}

function silicone(name: string, grid: readonly [number, number], given: Given): ShopMould {
  const like = aluminium(name, grid, 900, given);
  return { ...like, facts: { ...like.facts, material: 'silicone' } };
}

function gridOf([rows, cols]: readonly [number, number]): Layout {
  return { kind: 'grid', rows, cols, run: 'across', from: 'top-left' };
}

function plain(name: string, swatch: string): FactsOf<'colourways'> {
  return { name, sides: [{ name, swatch }] };
}

function laminate(
  name: string,
  ...sides: readonly [name: string, swatch: string][]
): FactsOf<'colourways'> {
  return { name, sides: sides.map(([side, swatch]) => ({ name: side, swatch })) };
}
