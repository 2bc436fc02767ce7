import styles from './Refusal.module.css';

/** One sentence about what did not work, read out at once; nothing while all is well. */
export function Refusal({ says }: { says: string | undefined }) {
  if (!says) return null;
  return (
    <p class={styles.refusal} role="alert">
      {says}
    </p>
  );
}
