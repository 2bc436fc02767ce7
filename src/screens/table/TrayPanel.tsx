import { useState } from 'preact/hooks';
import type { PartsAt } from '#calc/parts.ts';
import type { Said } from '#model/entry.ts';
import { partsWord, partWords } from '#screens/part-words.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { StepKeys } from '#screens/table/StepKeys.tsx';
import styles from './Table.module.css';

interface Props {
  /** The trays of this mould, the scarcest first. */
  trays: readonly PartsAt[];
  onSaid: (said: Said) => void;
  onBack: () => void;
}

const most = 100_000;

/** How many parts really lie in a tray: what is logged here holds from now on. */
export function TrayPanel({ trays, onSaid, onBack }: Props) {
  const [place, setPlace] = useState(0);
  const [counted, setCounted] = useState<number | null>(null);
  const tray = trays[place % Math.max(1, trays.length)];
  if (!tray) return null;
  const count = counted ?? tray.has;
  const step = (by: number) => setCounted(Math.min(most, Math.max(0, count + by)));
  const value = partWords(count, tray.part);
  return (
    <section class={styles.panel} aria-label={`Tray, ${tray.name}`}>
      <p class={styles.why}>
        How many {partsWord(tray.part)} of {tray.name} are there?
      </p>
      <StepKeys
        label="By tens"
        value={value}
        small="by tens"
        lessName="10 less"
        moreName="10 more"
        onLess={() => step(-10)}
        onMore={() => step(10)}
      />
      <StepKeys
        label="In the tray"
        value={value}
        small={counted === null ? 'by ones' : 'press to log'}
        lessName="1 less"
        moreName="1 more"
        onLess={() => step(-1)}
        onMore={() => step(1)}
        onLog={
          counted === null
            ? undefined
            : () => {
                onSaid({ kind: 'tray-counted', mouldId: tray.mouldId, count });
                setCounted(null);
              }
        }
      />
      <div class={styles.keyRow}>
        <PressKey onPress={onBack}>Back</PressKey>
        {trays.length > 1 && (
          <PressKey
            onPress={() => {
              setPlace(place + 1);
              setCounted(null);
            }}
          >
            Next tray
          </PressKey>
        )}
      </div>
    </section>
  );
}
