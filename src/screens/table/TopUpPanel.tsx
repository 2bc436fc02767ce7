import { useState } from 'preact/hooks';
import type { Pot } from '#calc/table-pots.ts';
import type { Said } from '#model/entry.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { StepKeys } from '#screens/table/StepKeys.tsx';
import { volumeStepMl, volumeWords } from '#screens/volumes.ts';
import type { SettingsFacts } from '#store/settings.ts';
import styles from './Table.module.css';

interface Props {
  pot: Pot;
  settings: SettingsFacts;
  onSaid: (said: Said) => void;
}

/** What was added to a pot: how much, and how often it had been hot before. */
export function TopUpPanel({ pot, settings, onSaid }: Props) {
  const unit = settings.volumeUnit;
  const stepMl = volumeStepMl(unit);
  const last = pot.course.filter((event) => event.kind === 'filled').at(-1);
  const isRepeat = last?.kind === 'filled' && last.at !== pot.mixedAt;
  const lastMl = isRepeat ? last.volumeMl : stepMl;
  const [volumeMl, setVolumeMl] = useState(lastMl);
  const [heats, setHeats] = useState(isRepeat ? Math.round(last.maxHeats) : 0);
  const words = volumeWords(volumeMl, unit);
  return (
    <section class={styles.panel} aria-label={`Top up ${pot.name}`}>
      <StepKeys
        label="How much"
        value={words}
        small={isRepeat && volumeMl === lastMl ? 'as last time' : 'goes in'}
        lessName={`${volumeWords(stepMl, unit)} less`}
        moreName={`${volumeWords(stepMl, unit)} more`}
        onLess={() => setVolumeMl(Math.max(stepMl, volumeMl - stepMl))}
        onMore={() => setVolumeMl(Math.min(20_000, volumeMl + stepMl))}
      />
      <StepKeys
        label="Heats it had before"
        value={heats === 0 ? 'Fresh' : `Remelt ${heats}`}
        small={heats === 0 ? 'never heated before' : 'heats it had before'}
        lessName="One heat less"
        moreName="One heat more"
        onLess={() => setHeats(Math.max(0, heats - 1))}
        onMore={() => setHeats(Math.min(30, heats + 1))}
      />
      <PressKey
        kind={styles.strong}
        onPress={() =>
          onSaid({
            kind: 'pot-topped-up',
            potId: pot.id,
            volumeMl,
            meanHeats: heats,
            maxHeats: heats,
          })
        }
      >
        Top up {words}
      </PressKey>
    </section>
  );
}
