import styles from './Table.module.css';

/** Heats as strokes; more than five in a number. Underlined at the person's own limit. */
export function Tally({ heats, isAtLimit }: { heats: number; isAtLimit: boolean }) {
  return (
    <span
      class={styles.tally}
      role="img"
      aria-label={String(heats)}
      data-limit={isAtLimit || undefined}
    >
      {heats > 5 ? heats : Array.from({ length: heats }, (_, index) => <i key={`${index + 1}`} />)}
    </span>
  );
}
