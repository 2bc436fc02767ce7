import type { ComponentChildren } from 'preact';
import styles from './Sheet.module.css';

interface Props {
  title?: string;
  /** Quiet words at the right of the title. */
  aside?: string;
  /** `care`: a caution, the only sheet with an inked edge. */
  tone?: 'care';
  /** Where it lies on a wide page: the second column, beside the others. */
  place?: 'beside';
  children: ComponentChildren;
}

/** A sheet of paper on the bench: words and pictures, nothing to press by itself. */
export function Sheet({ title, aside, tone, place, children }: Props) {
  return (
    <section class={styles.sheet} data-tone={tone} data-place={place}>
      {title && (
        <div class={styles.head}>
          <h2>{title}</h2>
          {aside && <span>{aside}</span>}
        </div>
      )}
      {children}
    </section>
  );
}
