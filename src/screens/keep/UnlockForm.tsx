import { useState } from 'preact/hooks';
import { ActKey } from '#ui/ActKey.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Keep.module.css';

interface Props {
  file: File;
  /** What was typed before and did not open it. */
  typed: string;
  trouble: string;
  onWords: (words: string) => void;
  onLeave: () => void;
}

/** Asks for the words of a locked copy. */
export function UnlockForm({ file, typed, trouble, onWords, onLeave }: Props) {
  const [words, setWords] = useState(typed);
  const [error, setError] = useState(trouble);
  return (
    <form
      class={styles.form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (words.trim() === '') setError('Type the words of this copy.');
        else onWords(words);
      }}
    >
      <Sheet title="This copy is locked" aside={file.name}>
        <Field
          label="Its words"
          hint="Small letters, a space between words."
          error={error || undefined}
        >
          {(attributes) => (
            <input
              {...attributes}
              autocomplete="off"
              autocapitalize="none"
              spellcheck={false}
              value={words}
              onInput={({ currentTarget }) => {
                setError('');
                setWords(currentTarget.value);
              }}
            />
          )}
        </Field>
        <ActKey size="main" sends>
          Unlock
        </ActKey>
        <ActKey onPress={onLeave}>Leave it</ActKey>
      </Sheet>
    </form>
  );
}
