import styles from './JarPicture.module.css';

interface Props {
  /** How full, 0 to 1; null: not known. */
  share: number | null;
  /** What its content looks like; null: drawn in ink. */
  swatch: string | null;
}

/** A jar, filled to its level. Its words stand beside it. */
export function JarPicture({ share, swatch }: Props) {
  return (
    <span
      class={styles.jar}
      aria-hidden="true"
      data-unknown={share === null || undefined}
      style={{ '--share': (share ?? 0).toFixed(3), '--fill': swatch ?? 'var(--ink-2)' }}
    >
      <i />
      <b />
    </span>
  );
}
