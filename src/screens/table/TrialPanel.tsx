import type { Seat, Shot } from '#calc/table.ts';
import type { Said } from '#model/entry.ts';
import { type Trial, trials } from '#model/trial.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { trialWords } from '#screens/trial-words.ts';
import styles from './Table.module.css';

interface Props {
  seat: Seat;
  onSaid: (said: Said) => void;
  onBack: () => void;
}

/** A new mould on trial: what its newest shot shows. A key that is pressed again takes its word back. */
export function TrialPanel({ seat, onSaid, onBack }: Props) {
  const shot = seat.shots.at(-1);
  return (
    <section class={styles.panel} aria-label={`Trial, ${seat.mould.name}`}>
      <p class={styles.why}>
        {shot ? 'A new mould? Say what this shot shows.' : 'Fill it first, then say what it shows.'}
      </p>
      {shot && (
        <div class={styles.pairs} role="group" aria-label={`Shot ${shot.number}`}>
          {tryable(seat, shot).flatMap((what) =>
            [true, false].map((did) => (
              <PressKey
                key={`${what} ${did}`}
                isPressed={shot.tried[what] === did}
                onPress={() =>
                  onSaid({
                    kind: 'tried',
                    shotId: shot.id,
                    what,
                    did: shot.tried[what] === did ? null : did,
                  })
                }
              >
                {trialWords[what][did ? 0 : 1]}
              </PressKey>
            )),
          )}
        </div>
      )}
      <div class={styles.keyRow}>
        <PressKey onPress={onBack}>
          Back
          {shot && <span class={styles.keySmall}>shot {shot.number}</span>}
        </PressKey>
      </div>
    </section>
  );
}

/** Sides can only come even where there were two, and parts hold only where there are parts. */
function tryable({ mould }: Seat, shot: Shot): Trial[] {
  return trials.filter((what) => {
    if (what === 'even') return shot.potIds.length > 1;
    return what === 'fills' || (mould.needs ?? []).length > 0;
  });
}
