import { cavityCount } from '#calc/cavity-layout.ts';
import type { ColdLine } from '#calc/cold-line.ts';
import { total } from '#calc/counts.ts';
import { countsBySession, type LoggedShot, warmShots } from '#calc/mould-shots.ts';
import { shotMl } from '#calc/mould-size.ts';
import {
  learntBelief,
  type ShotsPlan,
  type ShotsWish,
  shotsPlan,
  typedBelief,
} from '#calc/shots-needed.ts';
import { designEffect, shotPrior, together } from '#calc/yield.ts';
import type { Mould } from '#model/mould.ts';

/** A plan for so many good baits, and what it is made from. */
export interface MouldPlan {
  plan: ShotsPlan;
  /** Cold shots counted in, at the start. */
  coldShots: number;
  /** Warm baits that were looked at; 0: nothing was, and a typed yield stands in. */
  checked: number;
  /** What the shots draw from the pot, mL: baits and sprues. */
  volumeMl: number;
  /** The same for the shots that the average alone would ask for. */
  meanVolumeMl: number;
}

/** Until anything was looked at, 8 of 10 are taken to be good. Common practice, no source. */
const firstYieldShare = 0.8;

/** What a mould's plans are made from, whatever is wished. */
export interface PlanBasis extends Omit<ShotsWish, 'good'> {
  checked: number;
  perShotMl: number;
}

/** What the past of a mould teaches its plans; null: every cavity is closed. */
export function planBasis(
  mould: Mould,
  shots: readonly LoggedShot[],
  line: ColdLine,
): PlanBasis | null {
  const cavities = cavityCount(mould.layout) - new Set(mould.closed).size;
  if (cavities < 1) return null;
  const warm = countsBySession(warmShots(shots), 'good');
  const cold = countsBySession(
    shots.filter(({ isCold }) => isCold === true),
    'good',
  );
  const { x, n } = together(warm);
  const checked = total(n);
  const coldShots = line.said.kind === 'needs' ? line.said.shots : usualCold(shots);
  const isBlock = coldShots > 0 && cold.length > 0;
  return {
    cavities,
    belief: checked > 0 ? learntBelief(warm) : typedBelief(firstYieldShare),
    rho: checked > 0 ? designEffect(x, n)[0] : shotPrior.rho0,
    ...(isBlock ? { cold: { shots: coldShots, belief: learntBelief(cold) } } : {}),
    checked,
    perShotMl: shotMl(mould),
  };
}

/** Shots of one mould that give at least `good` good baits nine times in ten, cold ones first. */
export function mouldPlan(basis: PlanBasis, good: number): MouldPlan {
  const plan = shotsPlan({ ...basis, good });
  return {
    plan,
    coldShots: basis.cold?.shots ?? 0,
    checked: basis.checked,
    volumeMl: basis.perShotMl * (plan.kind === 'plan' ? plan.shots : plan.meanShots),
    meanVolumeMl: basis.perShotMl * plan.meanShots,
  };
}

/** How many first shots of a session usually were cold: the middle one over the sessions. */
function usualCold(shots: readonly LoggedShot[]): number {
  const first = new Map<string, number>();
  const isOver = new Set<string>();
  for (const { sessionId, isCold } of shots) {
    if (isCold !== true) isOver.add(sessionId);
    const isStill = isCold === true && !isOver.has(sessionId);
    first.set(sessionId, (first.get(sessionId) ?? 0) + (isStill ? 1 : 0));
  }
  const counts = [...first.values()].sort((a, b) => a - b);
  return counts[Math.floor(counts.length / 2)] ?? 0;
}
