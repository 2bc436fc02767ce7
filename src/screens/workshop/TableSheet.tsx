import { cFromF, fFromC } from '#calc/units.ts';
import { volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { tempWords } from '#screens/words.ts';
import { Row } from '#screens/workshop/Row.tsx';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';
import styles from './Rows.module.css';

interface Props {
  settings: SettingsFacts;
  onChange: (changes: Partial<SettingsFacts>) => void;
}

const mostHeats = 50;

/** How the table looks and what it begins with. */
export function TableSheet({ settings, onChange }: Props) {
  const { palette, mainKeySide, heatLimit, ambientC, pourC, potMl } = settings;
  const { tempUnit, volumeUnit } = settings;
  const stepMl = volumeStepMl(volumeUnit);
  const temp = (tempC: number, by: number) => stepped(tempC, by, tempUnit);
  return (
    <Sheet title="At the table">
      <ul class={styles.rows}>
        <Row
          title="Light"
          says={
            palette === 'chalk' ? 'Chalk: dark on light, for daylight.' : 'Lamp: for a dim room.'
          }
        >
          <ActKey onPress={() => onChange({ palette: palette === 'chalk' ? 'lamp' : 'chalk' })}>
            {palette === 'chalk' ? 'Use Lamp' : 'Use Chalk'}
          </ActKey>
        </Row>
        <Row title="Sides" says={`Main key on the ${mainKeySide}.`}>
          <ActKey
            onPress={() => onChange({ mainKeySide: mainKeySide === 'right' ? 'left' : 'right' })}
          >
            Swap
          </ActKey>
        </Row>
      </ul>
      <div class={styles.group}>
        <h3>Your limit for heats</h3>
        <p>A reminder in words on the pot key. It never stops you and does not say what is safe.</p>
        <Stepper
          label="Your limit for heats"
          value={heatLimit === null ? 'none' : String(heatLimit)}
          {...(heatLimit === mostHeats ? { small: 'the most' } : {})}
          lessName="One heat less"
          moreName="One heat more"
          onLess={() =>
            onChange({ heatLimit: heatLimit === null || heatLimit <= 1 ? null : heatLimit - 1 })
          }
          onMore={() => onChange({ heatLimit: Math.min(mostHeats, (heatLimit ?? 0) + 1) })}
        />
      </div>
      <div class={styles.group}>
        <h3>Shop temperature</h3>
        <Stepper
          label="Shop temperature"
          value={tempWords(ambientC, tempUnit)}
          small="a session begins with it"
          lessName="1 degree less"
          moreName="1 degree more"
          onLess={() => onChange({ ambientC: Math.max(-40, temp(ambientC, -1)) })}
          onMore={() => onChange({ ambientC: Math.min(60, temp(ambientC, 1)) })}
        />
      </div>
      <div class={styles.group}>
        <h3>Pour temperature</h3>
        <Stepper
          label="Pour temperature"
          value={tempWords(pourC, tempUnit)}
          small="taken for a pot without a reading"
          lessName="5 degrees less"
          moreName="5 degrees more"
          onLess={() => onChange({ pourC: Math.max(100, temp(pourC, -5)) })}
          onMore={() => onChange({ pourC: Math.min(250, temp(pourC, 5)) })}
        />
      </div>
      <div class={styles.group}>
        <h3>A new mix</h3>
        <Stepper
          label="A new mix"
          value={volumeWords(potMl, volumeUnit)}
          small="until you change it at the table"
          lessName={`${volumeWords(stepMl, volumeUnit)} less`}
          moreName={`${volumeWords(stepMl, volumeUnit)} more`}
          onLess={() => onChange({ potMl: Math.max(stepMl, potMl - stepMl) })}
          onMore={() => onChange({ potMl: Math.min(20_000, potMl + stepMl) })}
        />
      </div>
    </Sheet>
  );
}

/** A step in the unit that is shown; Fahrenheit goes in whole degrees too. */
function stepped(tempC: number, by: number, unit: 'C' | 'F'): number {
  return unit === 'C' ? Math.round(tempC) + by : cFromF(Math.round(fFromC(tempC)) + by);
}
