import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import styles from './Field.module.css';

interface Props {
  label: string;
  /** What to know before typing. */
  hint?: string;
  /** What it was the last time, beside an empty or a changed field; undefined: never. */
  last?: string | undefined;
  /** What is wrong, in one sentence; undefined: nothing. */
  error?: string | undefined;
  /** Draws the control; spread `attributes` on it so that label, hint and error belong to it. */
  children: (attributes: {
    id: string;
    'aria-describedby': string | undefined;
    'aria-invalid': boolean;
  }) => ComponentChildren;
}

/** A labelled place to type, with the refusal right under it. */
export function Field({ label, hint, last, error, children }: Props) {
  const id = useId();
  const described = [
    hint ? `${id}-hint` : '',
    last ? `${id}-last` : '',
    error ? `${id}-error` : '',
  ].filter(Boolean);
  return (
    <div class={styles.field}>
      <label for={id}>{label}</label>
      {hint && (
        <p class={styles.hint} id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {children({
        id,
        'aria-describedby': described.length > 0 ? described.join(' ') : undefined,
        'aria-invalid': error !== undefined,
      })}
      {last && (
        <p class={styles.last} id={`${id}-last`}>
          Last: {last}
        </p>
      )}
      {error && (
        <p class={styles.error} id={`${id}-error`} role="alert">
          {error}
        </p>
      )}
    </div>
  );
}
