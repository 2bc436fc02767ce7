import { cFromF, fFromC } from '#calc/units.ts';
import type { Change } from '#screens/use-settings.ts';
import { volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { tempWords } from '#screens/words.ts';
import { endWords, within } from '#screens/workshop/limits.ts';
import { StepRow } from '#screens/workshop/StepRow.tsx';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  settings: SettingsFacts;
  onChange: (next: Change) => void;
}

/** What a shop, a pour and a pot can be. Common practice, no source. */
const shopC = { least: -40, most: 60 };
const pourLimitsC = { least: 100, most: 250 };
const mostPotMl = 20_000;
/** Half the width that a window begins with, K. */
const firstHalfK = 5;

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
      <WindowRows settings={settings} onChange={onChange} />
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

/** The window that minutes are counted outside of; the first press sets one around the pour temperature. */
function WindowRows({ settings, onChange }: Props) {
  const { tempUnit, pourC, pourWindow } = settings;
  const first = { fromC: pourC - firstHalfK, toC: pourC + firstHalfK };
  const step = (end: 'fromC' | 'toC', by: number) =>
    onChange(({ pourWindow: now }) => {
      if (!now) return { pourWindow: first };
      const next = { ...now, [end]: within(steppedC(now[end], by, tempUnit), pourLimitsC) };
      return next.fromC < next.toC ? { pourWindow: next } : {};
    });
  const words = (end: 'fromC' | 'toC') =>
    pourWindow ? tempWords(pourWindow[end], tempUnit) : 'none';
  return (
    <>
      <StepRow
        title="Pouring window, from"
        says="As the data sheet of your plastisol has it. It marks minutes outside and does not say what is safe."
        words={words('fromC')}
        small={pourWindow ? 'the lower end' : 'no window of your own'}
        step="One degree"
        onStep={(by) => step('fromC', by)}
      />
      <StepRow
        title="Pouring window, to"
        words={words('toC')}
        small={pourWindow ? 'the upper end' : 'no window of your own'}
        step="One degree"
        onStep={(by) => step('toC', by)}
      />
      {pourWindow && (
        <ActKey onPress={() => onChange(() => ({ pourWindow: null }))}>No window</ActKey>
      )}
    </>
  );
}

/** A step in the unit that is shown; Fahrenheit goes in whole degrees too. */
function steppedC(tempC: number, by: number, unit: 'C' | 'F'): number {
  return unit === 'C' ? Math.round(tempC) + by : cFromF(Math.round(fFromC(tempC)) + by);
}
