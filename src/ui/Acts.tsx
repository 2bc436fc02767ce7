import type { ComponentChildren } from 'preact';
import styles from './Acts.module.css';

/** Keys side by side. With `label` they are a choice of one. */
export function Acts({ label, children }: { label?: string; children: ComponentChildren }) {
  return (
    <div class={styles.acts} role={label ? 'group' : undefined} aria-label={label}>
      {children}
    </div>
  );
}
