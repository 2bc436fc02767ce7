import { useState } from 'preact/hooks';
import type { Said } from '#model/entry.ts';
import { NoteField, noteRefusal } from '#screens/pour/NoteField.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import styles from './PutRight.module.css';

/** A note typed into the session. `onAdd` resolves to false when it could not be stored. */
export function AddNote({ onAdd }: { onAdd: (said: Said) => Promise<boolean> }) {
  const [text, setText] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<string>();
  if (text === null) return <ActKey onPress={() => setText('')}>Add a note</ActKey>;
  const words = text;

  function close() {
    setText(null);
    setRefusal(undefined);
  }

  async function save() {
    const wrong = noteRefusal(words);
    setRefusal(wrong);
    if (wrong !== undefined || !(await onAdd({ kind: 'noted', text: words.trim() }))) return;
    // What was typed while it was written is the next note.
    setText((now) => (now === words ? null : now));
  }

  return (
    <form
      class={styles.form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <NoteField text={words} error={refusal} onText={setText} />
      <Acts>
        <ActKey onPress={close}>Leave it</ActKey>
        <ActKey sends>Save note</ActKey>
      </Acts>
    </form>
  );
}
