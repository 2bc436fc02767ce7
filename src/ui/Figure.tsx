import styles from './Figure.module.css';

/** The one headline count of a page: `134` of 150 good. */
export function Figure({ count, rest }: { count: string | number; rest: string }) {
  return (
    <p class={styles.fig}>
      <b>{count}</b> {rest}
    </p>
  );
}
