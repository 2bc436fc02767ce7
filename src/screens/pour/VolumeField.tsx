import { VolumeMl } from '#model/schemas.ts';
import { volumeFrom, volumeText, volumeUnitWords } from '#screens/number-text.ts';
import type { VolumeUnit } from '#screens/volumes.ts';
import { Field } from '#ui/Field.tsx';

interface Props {
  label: string;
  unit: VolumeUnit;
  text: string;
  /** What it was the last time; undefined: never. */
  last?: string | undefined;
  error?: string | undefined;
  onText: (text: string) => void;
}

/** A volume to type, in the person's unit. */
export function VolumeField({ label, unit, text, last, error, onText }: Props) {
  return (
    <Field label={`${label}, ${volumeUnitWords[unit]}`} last={last} error={error}>
      {(attributes) => (
        <input
          {...attributes}
          inputMode="decimal"
          autocomplete="off"
          value={text}
          onInput={(event) => onText(event.currentTarget.value)}
        />
      )}
    </Field>
  );
}

/** The volume that was typed, or why it cannot be. An untouched text keeps the exact volume. */
export function typedVolume(
  text: string,
  wasMl: number,
  unit: VolumeUnit,
): { volumeMl: number } | { refusal: string } {
  if (text === volumeText(wasMl, unit)) return { volumeMl: wasMl };
  const typed = volumeFrom(text, unit);
  if (typed === null) return { refusal: 'Write a number, such as 2 or 1.5.' };
  const checked = VolumeMl.safeParse(typed);
  if (checked.success) return { volumeMl: checked.data };
  return { refusal: checked.error.issues[0]?.message ?? 'This volume cannot be.' };
}
