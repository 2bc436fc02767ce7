import styles from './RibbonKey.module.css';

/** What the marks of a shot ribbon mean. */
export function RibbonKey() {
  return (
    <p class={styles.words}>
      <span>
        <i data-k="bad" />
        ink = bad
      </span>
      <span>
        <i data-k="cold" />
        thick foot = cold shot
      </span>
      <span>
        <i data-k="unchecked" />
        dots = not checked
      </span>
    </p>
  );
}
