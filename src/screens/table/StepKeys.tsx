import { useState } from 'preact/hooks';
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
  /** Where the value comes from, in one sentence: a press on the value tells it. */
  says?: string;
}

/** A value between minus and plus, for gloves. */
export function StepKeys(props: Props) {
  const { label, value, small, lessName, moreName, onLess, onMore, onLog, says } = props;
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
      ) : says ? (
        <SaysKey key={says} value={value} small={small} says={says} />
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

/** The value as a key: one press tells where it comes from, the next shows it again. */
function SaysKey({ value, small, says }: Pick<Props, 'value' | 'small'> & { says: string }) {
  const [isTold, setIsTold] = useState(false);
  return (
    <>
      <PressKey kind={styles.stepSays} isExpanded={isTold} onPress={() => setIsTold(!isTold)}>
        {isTold ? (
          <small>{says}</small>
        ) : (
          <>
            {value} <small>{small}</small>
          </>
        )}
      </PressKey>
      <output class="said">{isTold ? says : value}</output>
    </>
  );
}
