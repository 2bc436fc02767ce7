import { cavityCount } from '#calc/cavity-layout.ts';
import { mouldMassG, partMlOf, sprueMlOf } from '#calc/mould-size.ts';
import { firstSetSec } from '#calc/set-clock.ts';
import type { Refusals } from '#screens/form.ts';
import type { LengthUnit } from '#screens/lengths.ts';
import type { LastSizes } from '#screens/moulds/last-sizes.ts';
import { layoutOf, type TypedMould } from '#screens/moulds/mould-form.ts';
import { clockWords, countWords } from '#screens/words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';

interface Props {
  typed: TypedMould;
  refusals: Refusals;
  unit: LengthUnit;
  last: LastSizes;
  onChange: (part: Partial<TypedMould>) => void;
}

/** Weight, volumes, thickness and set time, each with what is taken while it is empty. */
export function SizeFields({ typed, refusals, unit, last, onChange }: Props) {
  const layout = layoutOf(typed);
  const size = { ...typed, layout, massG: null, partMl: null, sprueMl: null };
  const from = countWords(cavityCount(layout), 'cavity', 'cavities');
  const about = `${(mouldMassG(size).massG / 1_000).toFixed(1)} kg`;
  const of = unit === 'mm' ? 'mm' : 'inches';
  const fields = [
    [
      'massG',
      'Weight in g',
      `Both halves together. Empty: worked out from ${from}, about ${about}.`,
    ],
    ['partMl', 'One bait in mL', `Empty: ${partMlOf(size)} mL.`],
    [
      'sprueMl',
      'Sprue in mL',
      `All of a shot that is no bait. Empty: ${sprueMlOf(size)} mL, from ${from}.`,
    ],
    [
      'thickness',
      `Thickest part of the bait in ${of}`,
      `It sets last: the clock is worked out from it. Empty: ${clockWords(firstSetSec)} to begin with.`,
    ],
    [
      'thinnest',
      `Thinnest part of the bait in ${of}`,
      'A tail, mostly. The forecast of a colour shows it there, too.',
    ],
  ] as const;
  return (
    <>
      {fields.map(([field, label, hint]) => (
        <Field key={field} label={label} hint={hint} last={last[field]} error={refusals[field]}>
          {(attributes) => (
            <input
              {...attributes}
              inputMode="decimal"
              autocomplete="off"
              value={typed[field]}
              onInput={({ currentTarget }) => onChange({ [field]: currentTarget.value })}
            />
          )}
        </Field>
      ))}
      <Acts label="Shape of the thickest part">
        {(['round', 'flat'] as const).map((shape) => (
          <ActKey
            key={shape}
            isPressed={typed.sectionShape === shape}
            onPress={() => onChange({ sectionShape: shape })}
          >
            {shape === 'round' ? 'Round there' : 'Flat there'}
          </ActKey>
        ))}
      </Acts>
      <Field
        label="Your own set time"
        hint="Minutes and seconds, like 3:15. Empty: worked out, then learnt."
        last={last.setTime}
        error={refusals.setTime}
      >
        {(attributes) => (
          <input
            {...attributes}
            autocomplete="off"
            value={typed.setTime}
            onInput={({ currentTarget }) => onChange({ setTime: currentTarget.value })}
          />
        )}
      </Field>
    </>
  );
}
