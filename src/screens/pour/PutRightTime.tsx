import { useState } from 'preact/hooks';
import type { Said } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import type { OpenLine } from '#screens/pour/open-line.ts';
import { PutRightForm } from '#screens/pour/PutRightForm.tsx';
import { askedInstant } from '#screens/pour/time-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import styles from './PutRight.module.css';

interface Props {
  open: OpenLine;
  onSave: (says: Said, happenedAt: Instant) => void;
  onLeave: () => void;
}

/** "That was two minutes ago": keys for the usual minutes, and the exact time. */
export function PutRightTime({ open, onSave, onLeave }: Props) {
  const { line, limits, zone } = open;
  const [refusal, setRefusal] = useState('');

  function earlier(minutes: number) {
    const asked = askedInstant(line.at - minutes * 60_000, limits, zone);
    if ('at' in asked) return onSave(line.said, asked.at);
    setRefusal(asked.refusal);
  }

  return (
    <div class={styles.form}>
      <Acts label="Minutes earlier">
        {[1, 2, 5].map((minutes) => (
          <ActKey key={minutes} onPress={() => earlier(minutes)}>
            −{minutes} min
          </ActKey>
        ))}
      </Acts>
      {refusal && (
        <p class={styles.refusal} role="alert">
          {refusal}
        </p>
      )}
      <PutRightForm open={open} says={() => line.said} onSave={onSave} onLeave={onLeave} />
    </div>
  );
}
