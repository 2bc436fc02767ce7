import type { ComponentChildren } from 'preact';
import styles from './SessionRow.module.css';

/** A list of sessions. */
export function SessionRows({ children }: { children: ComponentChildren }) {
  return <ul class={styles.rows}>{children}</ul>;
}
