import { useState } from 'preact/hooks';
import { heatFor, type LearntLoss, roundsFrom, timesPours } from '#calc/loss.ts';
import type { Pour } from '#calc/pot-runs.ts';
import { shortHeatWords } from '#screens/heat-words.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { volumeStepMl, volumeWords } from '#screens/volumes.ts';
import { countWords } from '#screens/words.ts';
import type { SettingsFacts } from '#store/settings.ts';
import styles from './Table.module.css';

interface Props {
  volumeMl: number;
  onVolume: (volumeMl: number) => void;
  settings: SettingsFacts;
  /** Under the volume; empty: the rounds it is good for. */
  small: string;
  /** Where the volume comes from, in one sentence. */
  says: string;
  /** What a round takes of this pot; nothing: only the volume can be chosen. */
  round: readonly Pour[];
  /** Undefined: not read yet. */
  learnt: LearntLoss | undefined;
  /** What is in the pot already, and what was poured from it. */
  already?: { inMl: number; past: readonly Pour[] };
}

const mostMl = 20_000;
const faces = ['volume', 'told', 'rounds'] as const;

/**
 * How much goes in, either way round: by the cup, or by the rounds it is to be good for. A press on
 * the value tells where it comes from, the next one shows the rounds.
 */
export function HowMuch(props: Props) {
  const { volumeMl, onVolume, settings, small, says, round, learnt } = props;
  const { inMl, past } = props.already ?? { inMl: 0, past: [] };
  const [face, setFace] = useState<'volume' | 'told' | 'rounds'>('volume');
  const [chosen, setChosen] = useState<number | null>(null);
  const unit = settings.volumeUnit;
  const stepMl = volumeStepMl(unit);
  const good = learnt ? roundsFrom(learnt, inMl + volumeMl, round, past) : null;
  const rounds = good === null ? null : (chosen ?? Math.max(1, good));
  const byRounds = face === 'rounds' && learnt && rounds !== null ? { learnt, rounds } : null;

  function stepVolume(by: number) {
    setFace('volume');
    setChosen(null);
    onVolume(Math.min(mostMl, Math.max(stepMl, volumeMl + by * stepMl)));
  }
  function stepRounds(by: LearntLoss, to: number) {
    const needMl = heatFor(by, [...past, ...timesPours(round, to)]).heatMl - inMl;
    if (to < 1 || needMl <= 0 || needMl > mostMl) return;
    setChosen(to);
    onVolume(needMl);
  }
  function step(by: number) {
    if (byRounds) stepRounds(byRounds.learnt, byRounds.rounds + by);
    else stepVolume(by);
  }
  const turn = () => setFace(faces[(faces.indexOf(face) + 1) % faces.length] ?? 'volume');
  const words = volumeWords(volumeMl, unit);
  const roundWords = good === null ? 'goes in' : `about ${countWords(good, 'round')}`;
  const stepWords = byRounds ? 'One round' : volumeWords(stepMl, unit);

  return (
    <div class={styles.step} role="group" aria-label="How much">
      <PressKey label={`${stepWords} less`} onPress={() => step(-1)}>
        −
      </PressKey>
      <PressKey
        kind={`${styles.stepSays} ${styles.howMuch}`}
        isExpanded={face === 'told'}
        onPress={turn}
      >
        {face === 'told' ? (
          <small>{says}</small>
        ) : (
          <>
            {byRounds ? countWords(byRounds.rounds, 'round') : words}{' '}
            <small>{byRounds ? heatedWords(byRounds) : small || roundWords}</small>
          </>
        )}
      </PressKey>
      <PressKey label={`${stepWords} more`} onPress={() => step(1)}>
        +
      </PressKey>
      <output class="said">{face === 'told' ? says : words}</output>
    </div>
  );

  function heatedWords({ learnt: by, rounds: to }: { learnt: LearntLoss; rounds: number }): string {
    const heat = addedHeat(by, [...past, ...timesPours(round, to)], inMl);
    return shortHeatWords(heat, settings.massUnit);
  }
}

/** What is still to be heated for these pours beside what is in the pot. */
function addedHeat(learnt: LearntLoss, pours: readonly Pour[], inMl: number) {
  const heat = heatFor(learnt, pours);
  const less = (ml: number) => Math.max(0, ml - inMl);
  return { ...heat, heatMl: less(heat.heatMl), lowMl: less(heat.lowMl), highMl: less(heat.highMl) };
}
