import { cavityCount } from '#calc/cavity-layout.ts';
import type { Columns } from '#calc/columns.ts';
import { type BaitCost, shownCents } from '#calc/cost.ts';
import { lastPoured, sessionsOfMould } from '#calc/last-poured.ts';
import { type MixCost, type MouldRun, mixBaitCost, mixCost } from '#calc/mix-price.ts';
import { partMlOf, shotMl } from '#calc/mould-size.ts';
import { unitCentsAt } from '#calc/stock-price.ts';
import { totalOf, yieldsByMould } from '#calc/yields.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import type { Mould } from '#model/mould.ts';
import type { Jar } from '#screens/shelf/shelf-view.ts';
import type { SettingsFacts } from '#store/settings.ts';

/** A mix as it is chosen: the newest version of a colour. */
export interface MixChoice {
  mix: Mix;
  name: string;
}

/** Everything that a cost is worked out from. */
export interface CostScene {
  jars: readonly Jar[];
  columns: readonly Columns[];
  settings: SettingsFacts;
}

/** The newest version of every colour, under its name. */
export function mixChoices(mixes: readonly Mix[], colourways: readonly Colourway[]): MixChoice[] {
  return colourways.flatMap((colourway): MixChoice[] => {
    const own = mixes.filter(({ colourwayId }) => colourwayId === colourway.id);
    const newest = own.toSorted((a, b) => b.version - a.version)[0];
    return newest ? [{ mix: newest, name: `${colourway.name} ${newest.version}` }] : [];
  });
}

/** What a mix costs by the prices of one day. */
export function mixCostAt(mix: Mix, jars: readonly Jar[], at: number): MixCost {
  const priced = jars.map(({ material, price }) => ({
    material,
    unitCents: unitCentsAt(price, material, at),
  }));
  return mixCost(mix, priced);
}

/** What a mould gave so far; before its first checked shot, as if every bait were good. */
export function runOf(mould: Mould, columns: readonly Columns[]): MouldRun & { isGuess: boolean } {
  const own = yieldsByMould(columns).find(({ mouldId }) => mouldId === mould.id);
  const size = { partMl: partMlOf(mould), shotMl: shotMl(mould) };
  const { shots = 0, good = 0, checked = 0, notChecked = 0 } = own?.tally ?? {};
  if (checked === 0 || good === 0) {
    const working = cavityCount(mould.layout) - mould.closed.length;
    return { ...size, shots: 1, good: Math.max(0, working), isGuess: true };
  }
  // What nobody looked at is taken to be as good as what was looked at.
  const all = Math.max(1, Math.round((good / checked) * (checked + notChecked)));
  return { ...size, shots, good: all, isGuess: false };
}

/** Minutes at the table for each good bait, over the sessions of a mould; 0: nothing poured yet. */
export function minPerBait(mould: Mould, columns: readonly Columns[]): number {
  const sessions = sessionsOfMould(columns, mould.id);
  const min = sessions.reduce((sum, { startedAt, endedAt }) => sum + (endedAt - startedAt), 0);
  const { good } = totalOf(yieldsByMould(sessions));
  return good === 0 ? 0 : min / 60_000 / good;
}

/** The cost of a bait of this mould and mix by the prices of one day; null: no good bait to share it. */
export function baitCostAt(
  { mix, mould, at }: { mix: Mix; mould: Mould; at: number },
  { jars, columns, settings }: CostScene,
): BaitCost | null {
  const run = runOf(mould, columns);
  const bag = jars.find(({ material }) => material.kind === 'bag' && !material.isAside);
  const bagUnit = bag ? unitCentsAt(bag.price, bag.material, at) : null;
  const perBag = settings.baitsPerBag ?? 0;
  return mixBaitCost(run, mixCostAt(mix, jars, at), {
    bagCents: perBag > 0 && bagUnit !== null ? bagUnit / perBag : 0,
    timeMin: minPerBait(mould, columns) * run.good,
    timeCentsPerMin: (settings.hourCents ?? 0) / 60,
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
    perBait: (Math.round(perBait * 10) / 1_000).toFixed(3),
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
