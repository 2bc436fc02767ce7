import { useState } from 'preact/hooks';
import { WordsField } from '#screens/WordsField.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './CopyParts.module.css';

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
        <WordsField
          label="Its words"
          hint="Small letters, a space between words."
          error={error}
          words={words}
          onInput={(next) => {
            setError('');
            setWords(next);
          }}
        />
        <ActKey size="main" sends>
          Unlock
        </ActKey>
        <ActKey onPress={onLeave}>Leave it</ActKey>
      </Sheet>
    </form>
  );
}
