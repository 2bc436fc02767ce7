import { type Drivers, driverSteps } from '#calc/driver-verdicts.ts';
import { countIn, type LoggedShot, type Outcome } from '#calc/mould-shots.ts';
import { endOf } from '#calc/steps.ts';
import type { InjectorId } from '#model/gear.ts';

/** What the log notes beside every shot and can be looked at as going with a defect. */
export type FactorName = 'mould-temperature' | 'time-shut' | 'heat' | 'injector';

/** What a defect goes with, factor by factor, in the order of `names`. */
export interface ShotDrivers {
  outcome: Outcome;
  names: readonly FactorName[];
  /** The injector that the others are held against; null: not two of them were used. */
  injectorId: InjectorId | null;
  said: Drivers;
}

/** The steps in which odds are told: 10 K, half a minute, one heat, this injector or not. */
const steps: Record<FactorName, number> = {
  'mould-temperature': 10,
  'time-shut': 30,
  heat: 1,
  injector: 1,
};
/** Finer than this nobody reads a mould or opens it; shots alike so far count as one kind. */
const roundK = 2;
const roundSec = 5;

/** What an outcome goes with in these shots; of two injectors the one with more bad ones is named. */
export function shotDrivers(
  shots: readonly LoggedShot[],
  outcome: Outcome,
  names: readonly FactorName[],
): ShotDrivers {
  return endOf(shotDriverSteps(shots, outcome, names));
}

/** The same in steps, so that a page can draw in between when the log is long. */
export function* shotDriverSteps(
  shots: readonly LoggedShot[],
  outcome: Outcome,
  names: readonly FactorName[],
): Generator<void, ShotDrivers> {
  const counts = shots.map(({ cells }) => countIn(cells, outcome));
  const injectorId = names.includes('injector') ? pairedInjector(shots) : null;
  const asked = names.filter((name) => name !== 'injector' || injectorId !== null);
  yield;
  const said = yield* driverSteps({
    x: counts.map(({ seen }) => seen),
    n: counts.map(({ checked }) => checked),
    session: shots.map(({ sessionId }) => sessionId),
    factors: asked.map((name) => ({
      values: shots.map((shot) => factorValue(shot, name, injectorId)),
      isPerSession: name === 'injector',
      step: steps[name],
    })),
  });
  return { outcome, names: asked, injectorId, said };
}

function factorValue(
  shot: LoggedShot,
  name: FactorName,
  injectorId: InjectorId | null,
): number | null {
  switch (name) {
    case 'mould-temperature':
      return Math.round(shot.aboveK / roundK) * roundK;
    case 'time-shut':
      return shot.openSec > 0 ? Math.round(shot.openSec / roundSec) * roundSec : null;
    case 'heat':
      return shot.heat > 0 ? shot.heat : null;
    case 'injector':
      return shot.injectorId === null ? null : shot.injectorId === injectorId ? 1 : 0;
  }
}

/** Of exactly two injectors the one with more bad per shot, so that "goes with" names it. */
function pairedInjector(shots: readonly LoggedShot[]): InjectorId | null {
  const shares = new Map<InjectorId, { bad: number; of: number }>();
  for (const { injectorId, cells } of shots) {
    if (injectorId === null) continue;
    const own = shares.get(injectorId) ?? { bad: 0, of: 0 };
    const { seen, checked } = countIn(cells, 'bad');
    own.bad += seen;
    own.of += checked;
    shares.set(injectorId, own);
  }
  if (shares.size !== 2) return null;
  const shareOf = ({ bad, of }: { bad: number; of: number }) => (of === 0 ? 0 : bad / of);
  const [worse] = [...shares].sort(([, a], [, b]) => shareOf(b) - shareOf(a));
  return worse?.[0] ?? null;
}
