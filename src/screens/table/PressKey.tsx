import type { ComponentChildren } from 'preact';
import { usePress } from '#ui/use-press.ts';
import styles from './Table.module.css';

interface Props {
  onPress: () => void;
  /** Names from the table's sheet: what kind of key it is. */
  kind?: string | undefined;
  isPressed?: boolean;
  isExpanded?: boolean;
  /** Spoken name; begins with the words on the key. */
  label?: string;
  children: ComponentChildren;
}

/** A key of the table: pressed as gloves press. */
export function PressKey({ onPress, kind, isPressed, isExpanded, label, children }: Props) {
  const press = usePress(onPress);
  return (
    <button
      type="button"
      class={`${styles.key} ${kind ?? ''}`}
      aria-pressed={isPressed}
      aria-expanded={isExpanded}
      aria-label={label}
      {...press}
    >
      {children}
    </button>
  );
}
