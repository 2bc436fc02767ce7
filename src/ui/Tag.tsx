import type { ComponentChildren } from 'preact';
import styles from './Tag.module.css';

/** Words in a dotted edge: not known yet, and nothing wrong with that. */
export function Tag({ children }: { children: ComponentChildren }) {
  return <span class={styles.tag}>{children}</span>;
}
