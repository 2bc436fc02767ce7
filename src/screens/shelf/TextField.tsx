import { Field } from '#ui/Field.tsx';

interface Props {
  label: string;
  hint?: string;
  /** What it was the last time; undefined: never. */
  last?: string | undefined;
  error?: string | undefined;
  value: string;
  /** What the keyboard of a phone shows. */
  mode?: 'text' | 'decimal' | 'numeric';
  type?: 'date' | 'color';
  onText: (text: string) => void;
}

/** A labelled place for one line of text. */
export function TextField({ label, hint, last, error, value, mode, type, onText }: Props) {
  return (
    <Field label={label} last={last} error={error} {...(hint ? { hint } : {})}>
      {(attributes) => {
        const own = { ...attributes, autocomplete: 'off', value } as const;
        const hear = ({ currentTarget }: { currentTarget: HTMLInputElement }) =>
          onText(currentTarget.value);
        return type ? (
          <input {...own} type={type} onInput={hear} />
        ) : (
          <input {...own} inputMode={mode ?? 'text'} onInput={hear} />
        );
      }}
    </Field>
  );
}
