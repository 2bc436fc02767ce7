import { Field } from '#ui/Field.tsx';

interface Props {
  label: string;
  hint: string;
  error: string;
  words: string;
  onInput: (words: string) => void;
}

/** Words of a lock as they are typed: no keyboard may spell, complete or capitalise them. */
export function WordsField({ label, hint, error, words, onInput }: Props) {
  return (
    <Field label={label} hint={hint} error={error || undefined}>
      {(attributes) => (
        <input
          {...attributes}
          autocomplete="off"
          autocapitalize="none"
          spellcheck={false}
          value={words}
          onInput={({ currentTarget }) => onInput(currentTarget.value)}
        />
      )}
    </Field>
  );
}
