import type { ComponentChildren } from 'preact';
import { usePress } from '#ui/use-press.ts';
import styles from './Table.module.css';

interface Props {
  onPress: () => void;
  /** Names from the table's sheet: what kind of key it is. */
  kind?: string | undefined;
  isPressed?: boolean;
  isExpanded?: boolean;
  /** Where the mould of a number key is in its walk. */
  stage?: string;
  /** Spoken name; begins with the words on the key. */
  label?: string;
  children: ComponentChildren;
}

/** A key of the table: pressed as gloves press. */
export function PressKey({ onPress, kind, isPressed, isExpanded, stage, label, children }: Props) {
  const press = usePress(onPress);
  return (
    <button
      type="button"
      class={`${styles.key} ${kind ?? ''}`}
      aria-pressed={isPressed}
      aria-expanded={isExpanded}
      aria-label={label}
      data-stage={stage}
      {...press}
    >
      {children}
    </button>
  );
}
