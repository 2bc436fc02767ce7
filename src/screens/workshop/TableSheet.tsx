import type { Change } from '#screens/use-settings.ts';
import { Row } from '#screens/workshop/Row.tsx';
import { TableChecks } from '#screens/workshop/TableChecks.tsx';
import type { SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

interface Props {
  settings: SettingsFacts;
  onChange: (next: Change) => void;
}

/** How the table looks, sounds and feels. */
export function TableSheet({ settings, onChange }: Props) {
  const { palette, mainKeySide } = settings;
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
    </Sheet>
  );
}
