import { cavityCount } from '#calc/cavity-layout.ts';
import type { Standing } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import type { FilledShot, Result, ShotId } from '#model/entry.ts';
import type { FrozenMould, MouldId } from '#model/mould.ts';

/**
 * What some entries do to a tray of parts: the count becomes the larger of `least` and what it was
 * plus `change`. A `change` of null: the tray was counted, so that what it was no longer matters.
 * A tray never holds less than nothing: taking more than is known shows that the count was short.
 */
export interface TrayStep {
  least: number;
  change: number | null;
}

/** What the entries of a session do to one tray. */
export interface TrayChange extends TrayStep {
  mouldId: MouldId;
}

/** Leaves every tray as it is. */
export const noStep: TrayStep = { least: 0, change: 0 };

/** How many parts there are after a step, when there were `before`. */
export function afterStep(before: number, { least, change }: TrayStep): number {
  return change === null ? least : Math.max(least, before + change);
}

/** Two steps as one. */
export function bothSteps(first: TrayStep, second: TrayStep): TrayStep {
  if (second.change === null) return second;
  const least = Math.max(second.least, first.least + second.change);
  return { least, change: first.change === null ? null : first.change + second.change };
}

/**
 * What a session does to each tray of its parts. Good pieces go in when their shot is opened; a body
 * takes its parts out when it is filled, for every cavity that was not closed then.
 */
export function trayChangesOf(
  lines: readonly Standing[],
  moulds: ReadonlyMap<MouldId, FrozenMould>,
): TrayChange[] {
  const mouldOf = new Map<ShotId, FrozenMould>();
  const steps = new Map<MouldId, TrayStep>();
  const add = (mouldId: MouldId, step: TrayStep) =>
    steps.set(mouldId, bothSteps(steps.get(mouldId) ?? noStep, step));
  const gave = new Map(
    all(lines, 'opened').flatMap(({ said }) =>
      said.shots.map(({ shotId, results }) => [shotId, results] as const),
    ),
  );
  for (const { said } of lines) {
    if (said.kind === 'filled') {
      for (const shot of said.shots) {
        const mould = moulds.get(shot.mouldId);
        if (!mould) continue;
        mouldOf.set(shot.shotId, mould);
        for (const need of mould.needs ?? []) {
          add(need.mouldId, { least: 0, change: -need.each * filledCavities(mould, shot) });
        }
      }
    } else if (said.kind === 'opened') {
      for (const { shotId } of said.shots) {
        const mould = mouldOf.get(shotId);
        // They lie in the tray from the first opening on, whatever was said of them later.
        mouldOf.delete(shotId);
        if (mould?.makes) {
          add(mould.mouldId, { least: 0, change: goodIn(gave.get(shotId) ?? []) });
        }
      }
    } else if (said.kind === 'tray-counted') {
      add(said.mouldId, { least: said.count, change: null });
    }
  }
  return [...steps].map(([mouldId, step]) => ({ mouldId, ...step }));
}

/** How many parts of one mould there are after sessions, given oldest first. */
export function trayAfter(
  sessions: readonly { trays?: readonly TrayChange[] }[],
  mouldId: MouldId,
): number {
  let count = 0;
  for (const { trays = [] } of sessions) {
    const step = trays.find((one) => one.mouldId === mouldId);
    if (step) count = afterStep(count, step);
  }
  return count;
}

function filledCavities(mould: FrozenMould, shot: FilledShot): number {
  return Math.max(0, cavityCount(mould.layout) - shot.closed.length);
}

function goodIn(results: readonly Result[]): number {
  return results.filter((result) => result === 'good').length;
}
