import { defectCounts, type LoggedShot } from '#calc/mould-shots.ts';
import { type FactorName, shotDrivers } from '#calc/shot-drivers.ts';
import { useWorked } from '#live/use-worked.ts';
import type { Injector } from '#model/gear.ts';
import { goesWithWords } from '#screens/goes-with-words.ts';
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
const most = 10_000;

/** What the commonest defects go with; nothing here says what causes what. */
export function GoesWith({ shots, factors, injectors, tempUnit, count, isFolded }: Props) {
  const found = useWorked(() => {
    const newest = shots.slice(-most);
    return defectCounts(newest)
      .slice(0, count)
      .map(([defect]) => {
        const drivers = shotDrivers(newest, defect, factors);
        const injector = injectors.find(({ id }) => id === drivers.injectorId);
        return { defect, ...goesWithWords(drivers, injector?.name ?? 'one injector', tempUnit) };
      });
  }, [shots, injectors, tempUnit, count]);
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
