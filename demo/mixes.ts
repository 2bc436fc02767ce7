import { roleAt } from '#calc/pot-mix.ts';
import { toMl } from '#calc/units.ts';
import type { Colourway } from '#model/gear.ts';
import type { Dose, Mix, MixSide } from '#model/mix.ts';
import type { Instant } from '#model/schemas.ts';
import type { FactsOf } from '#store/heads.ts';
import { type MaterialKey, materials } from './materials.ts';
import type { Pen } from './pen.ts';
import { type ColourKey, colourways } from './shop.ts';

/** So much of a material in two cups: drops of a colourant, teaspoons of all else. */
type Recipe = Partial<Record<MaterialKey, number>>;
/** The sides of one version, and the evening, by its number, from which on it is poured. */
interface Version {
  from: number;
  sides: readonly Recipe[];
  nextTime?: string;
}

/** What the shop puts into two cups; what it learnt made the later versions. Every number is our own. */
const written: Record<ColourKey, readonly Version[]> = {
  peat: [
    { from: 0, sides: [{ brown: 24, black: 8, blackFlake: 1 }] },
    { from: 12, sides: [{ brown: 24, black: 6, blackFlake: 1 }] },
    {
      from: 26,
      sides: [{ brown: 24, black: 6, blackFlake: 1, greenFlake: 0.5 }],
      nextTime: 'Half the green flake.',
    },
  ],
  pearl: [
    { from: 0, sides: [{ white: 6, pearl: 1 }] },
    { from: 18, sides: [{ white: 4, pearl: 1.25 }] },
  ],
  inkRust: [
    {
      from: 0,
      sides: [
        { black: 18, blue: 6 },
        { red: 20, copperFlake: 0.5 },
      ],
    },
    {
      from: 20,
      sides: [
        { black: 18, blue: 8 },
        { red: 16, brown: 4, copperFlake: 0.75 },
      ],
    },
  ],
  slate: [
    { from: 0, sides: [{ black: 6, blue: 4, white: 6 }] },
    { from: 22, sides: [{ black: 6, blue: 4, white: 6, silverFlake: 0.5 }] },
  ],
  slateCider: [
    {
      from: 0,
      sides: [
        { black: 6, blue: 4, white: 6 },
        { yellow: 14, brown: 3 },
      ],
    },
    {
      from: 30,
      sides: [
        { black: 6, blue: 5, white: 6 },
        { yellow: 14, brown: 4 },
      ],
    },
  ],
  cider: [
    { from: 0, sides: [{ yellow: 16, brown: 3, copperFlake: 0.5 }] },
    { from: 15, sides: [{ yellow: 14, brown: 4, copperFlake: 0.75 }] },
  ],
  dusk: [
    { from: 0, sides: [{ violet: 14, black: 4 }] },
    { from: 24, sides: [{ violet: 16, black: 3, silverFlake: 0.25 }] },
  ],
  milk: [
    { from: 0, sides: [{ white: 20 }] },
    { from: 16, sides: [{ white: 18, pearl: 0.25 }] },
  ],
  moss: [
    { from: 0, sides: [{ green: 16, brown: 6 }] },
    { from: 14, sides: [{ green: 16, brown: 8, greenFlake: 0.75 }] },
  ],
  barley: [
    { from: 0, sides: [{ yellow: 8, white: 8, brown: 2 }] },
    { from: 28, sides: [{ yellow: 9, white: 8, brown: 2, salt: 3 }] },
  ],
};

/** The versions that are written for an evening, each a minute after the other. */
export function mixesFor(
  evening: number,
  shop: { colourways: Record<ColourKey, Colourway> },
  pen: Pen,
  at: Instant,
): Mix[] {
  const due = (Object.keys(colourways) as ColourKey[]).flatMap((key) =>
    written[key].flatMap((version, index) => (version.from === evening ? [{ key, index }] : [])),
  );
  return due.map(({ key, index }, minute) =>
    pen.head<Mix>(factsOf(shop.colourways[key], written[key][index], index), at + minute * 60_000),
  );
}

/** The version of a colourway's mix that an evening pours: the newest that is written. */
export function newestOf(mixes: readonly Mix[], { id }: Colourway): Mix | undefined {
  return mixes.findLast(({ colourwayId }) => colourwayId === id);
}

function factsOf(
  colourway: Colourway,
  version: Version | undefined,
  index: number,
): FactsOf<'mixes'> {
  const count = colourway.sides.length;
  return {
    colourwayId: colourway.id,
    version: index + 1,
    baseMl: toMl(2, 'cup'),
    nextTime: version?.nextTime ?? '',
    sides: colourway.sides.map(
      (side, at): MixSide => ({
        role: roleAt(at, count),
        ...side,
        plastisolId: materials.plastisol.id,
        doses: dosesOf(version?.sides[at] ?? {}),
      }),
    ),
  };
}

function dosesOf(recipe: Recipe): Dose[] {
  return (Object.entries(recipe) as [MaterialKey, number][]).map(([key, amount]) => {
    const { id, facts } = materials[key];
    const isDrops = facts.kind === 'colourant' && facts.unit === 'mL';
    const unit = isDrops ? 'drop' : 'tsp';
    return { materialId: id, name: facts.name, amount, unit, isPinned: false };
  });
}
