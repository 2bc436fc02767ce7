import { Words } from '#model/schemas.ts';
import { Field } from '#ui/Field.tsx';

interface Props {
  text: string;
  error?: string | undefined;
  onText: (text: string) => void;
}

/** A place to type a note. */
export function NoteField({ text, error, onText }: Props) {
  return (
    <Field label="Note" error={error}>
      {(attributes) => (
        <textarea
          {...attributes}
          rows={3}
          value={text}
          onInput={(event) => onText(event.currentTarget.value)}
        />
      )}
    </Field>
  );
}

/** Why these words cannot be a note, in one sentence; undefined: they can. */
export function noteRefusal(text: string): string | undefined {
  if (text.trim() === '') return 'Write something first.';
  return Words.safeParse(text.trim()).error?.issues[0]?.message;
}
