import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { clockText } from '#calc/days.ts';
import type { Said } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import type { OpenLine } from '#screens/pour/open-line.ts';
import { askedTime } from '#screens/pour/time-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';
import styles from './PutRight.module.css';

interface Props {
  open: OpenLine;
  /** What the line should have said; null: something typed cannot be, and says so. */
  says: () => Said | null;
  onSave: (says: Said, happenedAt: Instant) => void;
  onLeave: () => void;
  children?: ComponentChildren;
}

/** The fields of one line and its time, with the keys to save and to leave it. */
export function PutRightForm({ open, says, onSave, onLeave, children }: Props) {
  const { line, limits, zone } = open;
  const [clock, setClock] = useState(() => clockText(line.at, zone));
  const [refusal, setRefusal] = useState<string>();

  function save(event: Event) {
    event.preventDefault();
    const said = says();
    const asked = askedTime(clock, line.at, limits, zone);
    setRefusal('refusal' in asked ? asked.refusal : undefined);
    if (said && 'at' in asked) onSave(said, asked.at);
  }

  return (
    <form class={styles.form} noValidate onSubmit={save}>
      {children}
      <Field label="Time" error={refusal}>
        {(attributes) => (
          <input
            {...attributes}
            inputMode="decimal"
            autocomplete="off"
            value={clock}
            onInput={(event) => setClock(event.currentTarget.value)}
          />
        )}
      </Field>
      <Acts>
        <ActKey onPress={onLeave}>Leave it</ActKey>
        <ActKey sends>Save</ActKey>
      </Acts>
    </form>
  );
}
