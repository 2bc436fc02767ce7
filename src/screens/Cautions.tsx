import { cautions, whoDecides } from '#screens/cautions.ts';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Cautions.module.css';

/** The cautions, in an inked edge. */
export function Cautions() {
  return (
    <Sheet title="Before you heat" tone="care">
      <ul class={styles.list}>
        {cautions.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p class={styles.quiet}>{whoDecides}</p>
    </Sheet>
  );
}
