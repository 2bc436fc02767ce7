import type { Columns } from '#calc/columns.ts';
import { type BaitCost, shownCents } from '#calc/cost.ts';
import { lastPoured } from '#calc/last-poured.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import { baitMoneyWords } from '#screens/amounts.ts';

/** A mix as it is chosen: the newest version of a colour. */
export interface MixChoice {
  mix: Mix;
  name: string;
}

/** The newest version of every colour, under its name. */
export function mixChoices(mixes: readonly Mix[], colourways: readonly Colourway[]): MixChoice[] {
  return colourways.flatMap((colourway): MixChoice[] => {
    const own = mixes.filter(({ colourwayId }) => colourwayId === colourway.id);
    const newest = own.toSorted((a, b) => b.version - a.version)[0];
    return newest ? [{ mix: newest, name: `${colourway.name} ${newest.version}` }] : [];
  });
}

/** The parts of a cost as they are shown, to a tenth of a cent, adding up to what the whole shows. */
export function shownParts(cost: BaitCost): {
  perBait: string;
  parts: { word: string; value: number; says: string }[];
} {
  const { plastic, colour, lost, bag, time, perBait } = cost;
  const values = [plastic, colour, lost, bag, time];
  const tenths = shownCents(values, perBait * 10);
  const words = ['Plastic', 'Colour', 'Lost', 'Bag', 'Time'];
  return {
    perBait: baitMoneyWords(perBait),
    parts: values.map((value, index) => ({
      word: words[index] ?? '',
      value,
      says: ((tenths[index] ?? 0) / 1_000).toFixed(3),
    })),
  };
}

/** When this mix's colour was poured last; null: never. */
export function pouredLast({ mix }: MixChoice, columns: readonly Columns[]): number | null {
  return mix.colourwayId ? (lastPoured(columns).get(mix.colourwayId) ?? null) : null;
}
