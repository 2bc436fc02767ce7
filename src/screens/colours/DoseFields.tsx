import { inUnit, percentFrom, stepped, type TypedDose } from '#screens/colours/mix-form.ts';
import { tidy } from '#screens/dose-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';
import styles from './Mix.module.css';

interface Props {
  dose: TypedDose;
  /** The weight that per cent are of, g. */
  basisG: number;
  /** The same dose in the version before; undefined: it is new. */
  last: string | undefined;
  error: string | undefined;
  /** Null takes it out. */
  onChange: (dose: TypedDose | null) => void;
}

const units = [
  ['drop', 'drop'],
  ['tsp', 'tsp'],
  ['mL', 'mL'],
  ['g', 'g'],
  ['%', '%'],
] as const;

/** One dose: how much, in which unit, and whether it grows with the volume. */
export function DoseFields({ dose, basisG, last, error, onChange }: Props) {
  const { name, unit, isPinned, text } = dose;
  const share = percentFrom(text);
  return (
    <div class={styles.dose} role="group" aria-label={name}>
      <Field label={name} last={last} error={error}>
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
      {share !== null && (
        <p class={styles.quiet} role="status">
          {tidy(share * 100)} % of {tidy(basisG)} g of plastisol is {tidy(share * basisG)} g.
        </p>
      )}
      {isPinned && <p class={styles.quiet}>Pinned: the same in any volume.</p>}
      <Acts label={`Unit of ${name}`}>
        {units.map(([one, word]) => (
          <ActKey
            key={one}
            isPressed={one === '%' ? share !== null : share === null && unit === one}
            onPress={() => onChange(inUnit(dose, one))}
          >
            {word}
          </ActKey>
        ))}
      </Acts>
    </div>
  );
}
