import { useState } from 'preact/hooks';
import type { Said } from '#model/entry.ts';
import { type Instant, TempC } from '#model/schemas.ts';
import { tempFrom, tempText } from '#screens/number-text.ts';
import { lastTold } from '#screens/pour/last-told.ts';
import type { OpenLine } from '#screens/pour/open-line.ts';
import { PutRightForm } from '#screens/pour/PutRightForm.tsx';
import { Field } from '#ui/Field.tsx';

interface Props {
  open: OpenLine;
  /** What was measured. */
  label: string;
  tempC: number;
  says: (tempC: number) => Said;
  onSave: (says: Said, happenedAt: Instant) => void;
  onLeave: () => void;
}

/** A thermometer reading: its temperature and time. */
export function PutRightReading({ open, label, tempC, says, onSave, onLeave }: Props) {
  const { tempUnit } = open.units;
  const first = tempText(tempC, tempUnit);
  const [text, setText] = useState(first);
  const [refusal, setRefusal] = useState<string>();

  function read(): Said | null {
    // An untouched field keeps what was measured, not what was rounded for the eye.
    if (text === first) return says(tempC);
    const typed = tempFrom(text, tempUnit);
    const checked = typed === null ? null : TempC.safeParse(typed);
    setRefusal(checked ? checked.error?.issues[0]?.message : 'Write a number, such as 165.');
    return checked?.success ? says(checked.data) : null;
  }

  return (
    <PutRightForm open={open} says={read} onSave={onSave} onLeave={onLeave}>
      <Field label={`${label}, °${tempUnit}`} last={lastTold(open)} error={refusal}>
        {(attributes) => (
          <input
            {...attributes}
            inputMode="decimal"
            autocomplete="off"
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        )}
      </Field>
    </PutRightForm>
  );
}
