import type { ComponentChildren } from 'preact';
import styles from './Choices.module.css';

/** Keys of a choice that wrap into rows, for more or longer words than stand side by side. */
export function Choices({ label, children }: { label: string; children: ComponentChildren }) {
  return (
    <div class={styles.choices} role="group" aria-label={label}>
      {children}
    </div>
  );
}
