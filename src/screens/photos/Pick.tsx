import { Field } from '#ui/Field.tsx';

interface Props<T extends string> {
  label: string;
  /** Null: any. */
  value: T | null;
  of: readonly (readonly [value: T, word: string])[];
  onPick: (value: T | null) => void;
}

/** One of some, or any. */
export function Pick<T extends string>({ label, value, of, onPick }: Props<T>) {
  return (
    <Field label={label}>
      {(attributes) => (
        <select
          {...attributes}
          value={value ?? ''}
          onChange={({ currentTarget }) =>
            onPick(of.find(([one]) => one === currentTarget.value)?.[0] ?? null)
          }
        >
          <option value="">any</option>
          {of.map(([one, word]) => (
            <option key={one} value={one}>
              {word}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
