import type { Table } from '#calc/table.ts';
import type { Instant } from '#model/schemas.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { timeWords } from '#screens/table/return-words.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  onFinish: (at: Instant) => void;
  onCarryOn: () => void;
}

/** Two keys in place of the strip for somebody who was long away; any other press carries on too. */
export function StillPouring({ table, onFinish, onCarryOn }: Props) {
  const time = timeWords(table.lastAt, table.zone);
  return (
    <>
      <PressKey
        kind={styles.kFinish}
        label={`Finish at ${time}, the last entry`}
        onPress={() => onFinish(table.lastAt)}
      >
        <span>Finish</span> <span class={styles.keySmall}>at {time}</span>
      </PressKey>
      <PressKey kind={styles.kCarry} onPress={onCarryOn}>
        Carry on
      </PressKey>
    </>
  );
}
