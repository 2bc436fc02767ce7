import type { ComponentChildren } from 'preact';
import { useFitted } from '#screens/table/Fitted.tsx';
import { PressKey } from '#screens/table/PressKey.tsx';
import styles from './Table.module.css';

interface Props {
  name: string;
  /** Words on the key before the name. */
  before?: string;
  /** What only a screen reader hears: before all, and after all. */
  verb?: string;
  says?: string;
  isPressed?: boolean;
  onPress: () => void;
  /** What is drawn over the name. */
  children?: ComponentChildren;
}

/** A key that is called by the name of a thing: whole, wherever the key has the room. */
export function NameKey(props: Props) {
  const { name, verb = '', before = '', says = '', isPressed, onPress, children } = props;
  const [holder, shown] = useFitted(name);
  const whole = shown === name ? '' : ` ${name}`;
  return (
    <PressKey
      {...(isPressed === undefined ? {} : { isPressed })}
      label={`${verb}${before}${shown}${says}${whole}`}
      onPress={onPress}
    >
      {children}
      <span class={styles.fitted} ref={holder}>
        {before}
        <span>{shown}</span>
      </span>
    </PressKey>
  );
}
