import type { Change } from '#screens/use-settings.ts';
import { endWords, within } from '#screens/workshop/limits.ts';
import { Row } from '#screens/workshop/Row.tsx';
import { StartSettings } from '#screens/workshop/StartSettings.tsx';
import { StepRow } from '#screens/workshop/StepRow.tsx';
import { TableChecks } from '#screens/workshop/TableChecks.tsx';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

interface Props {
  settings: SettingsFacts;
  onChange: (next: Change) => void;
}

/** One step below the least limit there is none: it is stepped as 0 and kept as null. */
const heats = { least: 0, most: 50 };

/** How the table looks and what it begins with. */
export function TableSheet({ settings, onChange }: Props) {
  const { palette, mainKeySide, heatLimit } = settings;
  const isChalk = palette === 'chalk';
  const other = mainKeySide === 'right' ? 'left' : 'right';
  return (
    <Sheet title="At the table">
      <ul class={styles.rows}>
        <Row
          title="Light"
          says={isChalk ? 'Chalk: dark on light, for daylight.' : 'Lamp: for a dim room.'}
        >
          <ActKey onPress={() => onChange(() => ({ palette: isChalk ? 'lamp' : 'chalk' }))}>
            {isChalk ? 'Use Lamp' : 'Use Chalk'}
          </ActKey>
        </Row>
        <Row title="Sides" says={`Main key on the ${mainKeySide}.`}>
          <ActKey label="Swap sides" onPress={() => onChange(() => ({ mainKeySide: other }))}>
            Swap
          </ActKey>
        </Row>
        <TableChecks settings={settings} />
      </ul>
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
      <StartSettings settings={settings} onChange={onChange} />
    </Sheet>
  );
}
