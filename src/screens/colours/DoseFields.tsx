import { stepped, type TypedDose } from '#screens/colours/mix-form.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';
import styles from './Mix.module.css';

interface Props {
  dose: TypedDose;
  error: string | undefined;
  /** Null takes it out. */
  onChange: (dose: TypedDose | null) => void;
}

const units = [
  ['drop', 'drops'],
  ['tsp', 'tsp'],
  ['mL', 'mL'],
  ['g', 'g'],
] as const;

/** One dose: how much, in which unit, and whether it grows with the volume. */
export function DoseFields({ dose, error, onChange }: Props) {
  const { name, unit, isPinned, text } = dose;
  return (
    <div class={styles.dose} role="group" aria-label={name}>
      <Field label={name} error={error}>
        {(attributes) => (
          <input
            {...attributes}
            autocomplete="off"
            inputMode="decimal"
            value={text}
            onInput={({ currentTarget }) => onChange({ ...dose, text: currentTarget.value })}
          />
        )}
      </Field>
      <Acts>
        <ActKey label={`− ${name}`} onPress={() => onChange({ ...dose, text: stepped(dose, -1) })}>
          −
        </ActKey>
        <ActKey label={`+ ${name}`} onPress={() => onChange({ ...dose, text: stepped(dose, 1) })}>
          +
        </ActKey>
        <ActKey
          isPressed={isPinned}
          label={`Pin ${name}`}
          onPress={() => onChange({ ...dose, isPinned: !isPinned })}
        >
          Pin
        </ActKey>
        <ActKey label={`Out with ${name}`} onPress={() => onChange(null)}>
          Out
        </ActKey>
      </Acts>
      {isPinned && <p class={styles.quiet}>Pinned: the same in any volume.</p>}
      <Acts label={`Unit of ${name}`}>
        {units.map(([one, word]) => (
          <ActKey
            key={one}
            isPressed={unit === one}
            onPress={() => onChange({ ...dose, unit: one })}
          >
            {word}
          </ActKey>
        ))}
      </Acts>
    </div>
  );
}
