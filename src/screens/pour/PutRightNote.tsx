import { useState } from 'preact/hooks';
import type { Said, SaidOf } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { NoteField, noteRefusal } from '#screens/pour/NoteField.tsx';
import type { OpenLine } from '#screens/pour/open-line.ts';
import { PutRightForm } from '#screens/pour/PutRightForm.tsx';

interface Props {
  open: OpenLine;
  said: SaidOf<'noted'>;
  onSave: (says: Said, happenedAt: Instant) => void;
  onLeave: () => void;
}

/** The words of a note, and when it was made. */
export function PutRightNote({ open, said, onSave, onLeave }: Props) {
  const [text, setText] = useState(said.text);
  const [refusal, setRefusal] = useState<string>();

  function read(): Said | null {
    const wrong = noteRefusal(text);
    setRefusal(wrong);
    return wrong === undefined ? { ...said, text: text.trim() } : null;
  }

  return (
    <PutRightForm open={open} says={read} onSave={onSave} onLeave={onLeave}>
      <NoteField text={text} error={refusal} onText={setText} />
    </PutRightForm>
  );
}
