import type { ComponentChildren } from 'preact';
import styles from './TwinTable.module.css';

/** The fine print of a sheet, one press away, as its table is. */
export function Fold({ says, children }: { says: string; children: ComponentChildren }) {
  return (
    <details class={styles.twin}>
      <summary>{says}</summary>
      <div class={styles.inside}>{children}</div>
    </details>
  );
}
