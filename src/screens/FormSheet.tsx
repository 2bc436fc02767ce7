import type { ComponentChildren, RefObject } from 'preact';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './FormSheet.module.css';

interface Props {
  /** As `useForm` gives it. */
  form: RefObject<HTMLFormElement | null>;
  onSend: () => void;
  children: ComponentChildren;
}

/** A sheet to fill in; what does not fit is told by the page itself, in sentences. */
export function FormSheet({ form, onSend, children }: Props) {
  return (
    <form
      ref={form}
      class={styles.form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        onSend();
      }}
    >
      <Sheet>{children}</Sheet>
    </form>
  );
}
