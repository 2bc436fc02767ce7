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
  /** Only its title until it is pressed: the quieter part of a long page. */
  isFolded?: boolean;
  children: ComponentChildren;
}

/** A sheet of paper on the bench: words and pictures, nothing to press by itself. */
export function Sheet({ title, aside, tone, place, isFolded, children }: Props) {
  return (
    <section class={styles.sheet} data-tone={tone} data-place={place}>
      {isFolded ? (
        <details class={styles.fold}>
          <summary class={styles.head}>
            <h2>{title}</h2>
          </summary>
          <div class={styles.inside}>{children}</div>
        </details>
      ) : (
        <>
          {title && (
            <div class={styles.head}>
              <h2>{title}</h2>
              {aside && <span>{aside}</span>}
            </div>
          )}
          {children}
        </>
      )}
    </section>
  );
}
