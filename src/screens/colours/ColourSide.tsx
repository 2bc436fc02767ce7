import type { TypedColour } from '#screens/colours/colour-form.ts';
import type { Refusals } from '#screens/form.ts';
import { Field } from '#ui/Field.tsx';
import styles from './ColourSide.module.css';

interface Props {
  side: 'A' | 'B';
  typed: TypedColour;
  refusals: Refusals;
  onChange: (part: Partial<TypedColour>) => void;
}

/** Name and look of one side; a colour of one side only has no name of its own. */
export function ColourSide({ side, typed, refusals, onChange }: Props) {
  const name = `name${side}` as const;
  const swatch = `swatch${side}` as const;
  return (
    <div class={styles.side}>
      {typed.isPair && (
        <Field label={side === 'A' ? 'Side A, left' : 'Side B, right'} error={refusals[name]}>
          {(attributes) => (
            <input
              {...attributes}
              autocomplete="off"
              value={typed[name]}
              onInput={({ currentTarget }) => onChange({ [name]: currentTarget.value })}
            />
          )}
        </Field>
      )}
      <Field
        label={typed.isPair ? `Side ${side} looks like` : 'It looks like'}
        error={refusals[swatch]}
      >
        {(attributes) => (
          <input
            {...attributes}
            type="color"
            value={typed[swatch]}
            onInput={({ currentTarget }) => onChange({ [swatch]: currentTarget.value })}
          />
        )}
      </Field>
    </div>
  );
}
