import { PressKey } from '#screens/table/PressKey.tsx';
import styles from './Table.module.css';

interface Props {
  label: string;
  value: string;
  small: string;
  lessName: string;
  moreName: string;
  onLess: () => void;
  onMore: () => void;
  /** Given: the value itself is a key that logs it. */
  onLog?: (() => void) | undefined;
}

/** A value between minus and plus, for gloves. */
export function StepKeys(props: Props) {
  const { label, value, small, lessName, moreName, onLess, onMore, onLog } = props;
  return (
    <div class={styles.step} role="group" aria-label={label}>
      <PressKey label={lessName} onPress={onLess}>
        −
      </PressKey>
      {onLog ? (
        <PressKey kind={styles.stepLog} label={`Log ${value}`} onPress={onLog}>
          {value}
          <small>{small}</small>
        </PressKey>
      ) : (
        <output>
          {value}
          <small>{small}</small>
        </output>
      )}
      <PressKey label={moreName} onPress={onMore}>
        +
      </PressKey>
    </div>
  );
}
