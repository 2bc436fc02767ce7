import styles from './Table.module.css';

/** Lies over the table while the glass is wiped: every touch ends here. */
export function WipeShade({ leftMs }: { leftMs: number }) {
  const left = Math.ceil(leftMs / 1_000);
  return (
    <div class={styles.frozen} role="status">
      <p>
        <b>Wipe now</b>
        <span>
          Keys work again in <span aria-hidden="true">{left}</span>
          <span class="said">8 seconds</span>
        </span>
      </p>
    </div>
  );
}
