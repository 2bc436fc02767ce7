import type { MaterialId, MaterialKind } from '#model/material.ts';
import type { FactsOf } from '#store/heads.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { cardOpticsOf } from './swatches.ts';

/** A material of the shop under an id that stays, so that mixes and movements can name it. */
export interface ShopMaterial {
  id: MaterialId;
  facts: FactsOf<'materials'>;
}

/** Measures as they are printed on what is bought: exact in mL and g (NIST Handbook 44, App. C). */
const pailMl = 18_927.05892;
const quartMl = 946.352946;
const bottleMl = 118.294118;
const jarG = 113.398093;
const sackG = 2_267.96185;

/** What the shop buys and uses up. Every name is our own. */
export const materials = {
  plastisol: given(1, 'Soft plastisol', 'plastisol', 'mL', [pailMl, 18_900], {
    reorderAt: 8_000,
  }),
  softener: given(2, 'Softener', 'softener', 'mL', [quartMl, 1_650], { reorderAt: 200 }),
  stabiliser: given(3, 'Heat stabiliser', 'stabiliser', 'mL', [237, 1_400], { reorderAt: 50 }),
  brown: colourant(4, 'Bog brown', '#4a3019', [4, 0.8], { dropMl: 0.048 }),
  black: colourant(5, 'Soot black', '#15161a', [4, 0.9], {}),
  white: colourant(6, 'Chalk white', '#f4f1e8', [6, 0.85], { dropMl: 0.055 }),
  red: colourant(7, 'Brick red', '#8f2d1c', [8, 0.7], {}),
  yellow: colourant(8, 'Straw yellow', '#d9b23c', [6, 0.6], {}),
  green: colourant(9, 'Fern green', '#3f6a2c', [8, 0.7], {}),
  blue: colourant(10, 'Deep blue', '#1d3f78', [4, 0.7], {}),
  violet: colourant(11, 'Plum violet', '#5a3574', [8, 0.7], {}),
  pearl: given(12, 'Pearl powder', 'colourant', 'g', [50, 1_180], {
    reorderAt: 10,
    swatch: '#ece7dc',
    teaspoonG: 1.9,
    optics: cardOpticsOf('#ece7dc', { dosePerCup: 4, keepsOnBlack: 0.6 }),
  }),
  blackFlake: flake(13, 'Black flake', '#1b1b1b', 0.89, {}),
  greenFlake: flake(14, 'Green flake', '#4f8a3f', 0.38, {}),
  copperFlake: flake(15, 'Copper flake', '#b06a35', 0.64, { teaspoonG: 3.3 }),
  silverFlake: flake(16, 'Silver flake', '#c4c8cc', 1.02, {}),
  salt: given(17, 'Fine salt', 'salt', 'g', [sackG, 620], { reorderAt: 400, teaspoonG: 6 }),
  bags: given(18, 'Bags, 10 baits', 'bag', 'piece', [100, 1_350], { reorderAt: 40 }),
} satisfies Record<string, ShopMaterial>;
export type MaterialKey = keyof typeof materials;

type Own = Partial<FactsOf<'materials'>>;

function given(
  number: number,
  name: string,
  kind: MaterialKind,
  unit: 'mL' | 'g' | 'piece',
  [qty, cents]: readonly [qty: number, cents: number],
  own: Own,
): ShopMaterial {
  return {
    id: `019e7a30-0000-7000-9000-${number.toString(16).padStart(12, '0')}` as MaterialId,
    facts: {
      ...plainMaterial(kind),
      name,
      unit,
      package: { qty, cents },
      ...own,
    },
  };
}

function colourant(
  number: number,
  name: string,
  swatch: string,
  [dosePerCup, keepsOnBlack]: readonly [dosePerCup: number, keepsOnBlack: number],
  own: Own,
): ShopMaterial {
  const optics = cardOpticsOf(swatch, { dosePerCup, keepsOnBlack });
  const most = { reorderAt: 20, swatch, optics, ...own };
  return given(number, name, 'colourant', 'mL', [bottleMl, 980], most);
}

function flake(
  number: number,
  name: string,
  swatch: string,
  acrossMm: number,
  own: Own,
): ShopMaterial {
  const most = { reorderAt: 25, swatch, flake: { acrossMm, cut: 'hex' } as const, ...own };
  return given(number, name, 'flake', 'g', [jarG, 1_290], most);
}
