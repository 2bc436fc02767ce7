import { cavityCount } from '#calc/cavity-layout.ts';
import type { Columns } from '#calc/columns.ts';
import type { BaitCost } from '#calc/cost.ts';
import { sessionsOfMould } from '#calc/last-poured.ts';
import { enoughRuns, learntLoss } from '#calc/loss.ts';
import {
  type MaterialPrice,
  type MouldRun,
  mixBaitCost,
  mixCost,
  pricedAt,
} from '#calc/mix-price.ts';
import { partMlOf, shotMl } from '#calc/mould-size.ts';
import { totalOf, yieldsByMould } from '#calc/yields.ts';
import type { Mix } from '#model/mix.ts';
import type { Mould } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';

/** Everything that the cost of a bait is worked out from. */
export interface CostScene {
  prices: readonly MaterialPrice[];
  columns: readonly Columns[];
  settings: { baitsPerBag?: number | undefined; hourCents?: number | undefined };
}

/**
 * What a mould gave so far; before its first checked shot, as if every bait were good. `notChecked`
 * baits are counted into `good` by the share of the checked ones: they were poured and paid for too.
 */
export function runOf(
  mould: Mould,
  columns: readonly Columns[],
): MouldRun & { isGuess: boolean; notChecked: number } {
  const own = yieldsByMould(columns).find(({ mouldId }) => mouldId === mould.id);
  // What the shots really took, once the person's own pots tell.
  const loss = learntLoss(columns.flatMap(({ runs = [] }) => runs));
  const isOwn = (loss.runsOf.get(mould.id) ?? 0) >= enoughRuns;
  const took = 1 + (isOwn ? Math.max(0, loss.shareOf(mould.id)) : 0);
  const size = { partMl: partMlOf(mould), shotMl: shotMl(mould) * took };
  const { shots = 0, good = 0, checked = 0, notChecked = 0 } = own?.tally ?? {};
  if (checked === 0 || good === 0) {
    const working = cavityCount(mould.layout) - mould.closed.length;
    return { ...size, shots: 1, good: Math.max(0, working), isGuess: true, notChecked: 0 };
  }
  const all = Math.max(1, Math.round((good / checked) * (checked + notChecked)));
  return { ...size, shots, good: all, isGuess: false, notChecked };
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
  { mix, mould, at }: { mix: Pick<Mix, 'baseMl' | 'sides'>; mould: Mould; at: Instant },
  { prices, columns, settings }: CostScene,
): BaitCost | null {
  const run = runOf(mould, columns);
  const priced = pricedAt(prices, at);
  const perBag = settings.baitsPerBag ?? 0;
  const bagUnit = perBag > 0 ? bagCents(priced) : null;
  return mixBaitCost(run, mixCost(mix, priced), {
    bagCents: bagUnit === null ? 0 : bagUnit / perBag,
    timeMin: minPerBait(mould, columns) * run.good,
    timeCentsPerMin: (settings.hourCents ?? 0) / 60,
  });
}

/** One bag of the first kind that is in use; null: there is none, or it has no price. */
function bagCents(priced: ReturnType<typeof pricedAt>): number | null {
  const bags = priced.filter(({ material }) => material.kind === 'bag' && !material.isAside);
  bags.sort(({ material: a }, { material: b }) => a.name.localeCompare(b.name));
  return bags[0]?.unitCents ?? null;
}
