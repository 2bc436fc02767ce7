import { defectCounts, type LoggedShot } from '#calc/mould-shots.ts';
import { type FactorName, shotDriverSteps } from '#calc/shot-drivers.ts';
import { useWorkedSteps } from '#live/use-worked.ts';
import type { Defect } from '#model/defect.ts';
import type { Injector } from '#model/gear.ts';
import { type GoesWithSaid, goesWithWords } from '#screens/goes-with-words.ts';
import { defectWords } from '#screens/words.ts';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  shots: readonly LoggedShot[];
  /** What of the log is held against the defect. */
  factors: readonly FactorName[];
  injectors: readonly Injector[];
  tempUnit: 'C' | 'F';
  /** How many of the commonest defects are asked about. */
  count: number;
  isFolded?: boolean;
}

/** The newest shots are asked; more would say the same and keep a phone busy. */
export const mostAsked = 5_000;

/** What the commonest defects go with; nothing here says what causes what. */
export function GoesWith({ shots, factors, injectors, tempUnit, count, isFolded }: Props) {
  const found = useWorkedSteps(
    () => saidSteps(shots.slice(-mostAsked), { factors, injectors, tempUnit, count }),
    [shots, injectors, tempUnit, count],
  );
  if (!found || found.length === 0) return null;
  return (
    <Sheet title="What bad ones go with" {...(isFolded ? { isFolded } : {})}>
      {found.map(({ defect, lead, rest }) => (
        <div key={defect}>
          <h3>{defectWords[defect]}</h3>
          <p>
            <b>{lead}</b> {rest.join(' ')}
          </p>
        </div>
      ))}
      <p>To go with something is not to be caused by it.</p>
    </Sheet>
  );
}

type Asked = Pick<Props, 'factors' | 'injectors' | 'tempUnit' | 'count'>;

function* saidSteps(shots: readonly LoggedShot[], asked: Asked) {
  const said: (GoesWithSaid & { defect: Defect })[] = [];
  for (const [defect] of defectCounts(shots).slice(0, asked.count)) {
    yield;
    const drivers = yield* shotDriverSteps(shots, defect, asked.factors);
    const injector = asked.injectors.find(({ id }) => id === drivers.injectorId);
    said.push({
      defect,
      ...goesWithWords(drivers, injector?.name ?? 'one injector', asked.tempUnit),
    });
  }
  return said;
}
