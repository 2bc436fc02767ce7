import { cFromF, fFromC } from '#calc/units.ts';
import type { Change } from '#screens/use-settings.ts';
import { volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { tempWords } from '#screens/words.ts';
import { endWords, within } from '#screens/workshop/limits.ts';
import { StepRow } from '#screens/workshop/StepRow.tsx';
import type { SettingsFacts } from '#store/settings.ts';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  settings: SettingsFacts;
  onChange: (next: Change) => void;
}

/** What a shop, a pour and a pot can be. Common practice, no source. */
const shopC = { least: -40, most: 60 };
const pourLimitsC = { least: 100, most: 250 };
const mostPotMl = 20_000;

/** One step below the least limit there is none: it is stepped as 0 and kept as null. */
const heats = { least: 0, most: 50 };

/** The limit for heats and what a session begins with, in the person's units. */
export function StartSettings({ settings, onChange }: Props) {
  const { heatLimit, ambientC, pourC, potMl, tempUnit, volumeUnit } = settings;
  const stepMl = volumeStepMl(volumeUnit);
  const potLimits = { least: stepMl, most: mostPotMl };
  return (
    <Sheet title="What a session begins with" isFolded>
      <StepRow
        title="Your limit for heats"
        says="A reminder in words on the pot key. It never stops you and does not say what is safe."
        words={heatLimit === null ? 'none' : String(heatLimit)}
        small={
          heatLimit === null
            ? 'no limit of your own'
            : endWords(heatLimit, heats, 'heats of one pot')
        }
        step="One heat"
        onStep={(by) =>
          onChange((now) => ({ heatLimit: within((now.heatLimit ?? 0) + by, heats) || null }))
        }
      />
      <StepRow
        title="Shop temperature"
        words={tempWords(ambientC, tempUnit)}
        small={endWords(ambientC, shopC, 'at the start')}
        step="1 degree"
        onStep={(by) =>
          onChange((now) => ({ ambientC: within(steppedC(now.ambientC, by, tempUnit), shopC) }))
        }
      />
      <StepRow
        title="Pour temperature"
        words={tempWords(pourC, tempUnit)}
        small={endWords(pourC, pourLimitsC, 'without a reading')}
        step="5 degrees"
        onStep={(by) =>
          onChange((now) => ({ pourC: within(steppedC(now.pourC, by * 5, tempUnit), pourLimitsC) }))
        }
      />
      <StepRow
        title="A new mix"
        words={volumeWords(potMl, volumeUnit)}
        small={endWords(potMl, potLimits, 'in a fresh pot')}
        step={volumeWords(stepMl, volumeUnit)}
        onStep={(by) => onChange((now) => ({ potMl: within(now.potMl + by * stepMl, potLimits) }))}
      />
    </Sheet>
  );
}

/** A step in the unit that is shown; Fahrenheit goes in whole degrees too. */
function steppedC(tempC: number, by: number, unit: 'C' | 'F'): number {
  return unit === 'C' ? Math.round(tempC) + by : cFromF(Math.round(fFromC(tempC)) + by);
}
