import styles from './ColourChip.module.css';

/** The colour of a session: whole, in two halves for a laminate, or dotted when it is not known. */
export function ColourChip({ swatches }: { swatches: readonly string[] }) {
  const [a, b] = swatches;
  return (
    <i
      class={styles.chip}
      aria-hidden="true"
      data-unknown={a === undefined || undefined}
      data-two={b !== undefined || undefined}
      style={{ '--swatch': a, '--swatch-b': b }}
    />
  );
}
