import type { MouldYield } from '#calc/yields.ts';
import { ribbonOf, ribbonWords } from '#screens/ribbon.ts';
import { countWords } from '#screens/words.ts';
import { ofWords } from '#screens/yield-words.ts';
import { type RibbonShot, ShotRibbon } from '#ui/ShotRibbon.tsx';
import styles from './MouldLane.module.css';

interface Props {
  own: MouldYield;
  height?: 'low';
  /** Leaves the shot numbers out. */
  isBare?: boolean;
  chosen?: number | null;
  onPress?: (number: number) => void;
  nameOf?: (shot: RibbonShot) => string;
}

/** A mould's shots in one ribbon, with its name and its count. */
export function MouldLane({ own, height, isBare, chosen, onPress, nameOf }: Props) {
  const count = ofWords(own.tally.good, own.tally.checked);
  return (
    <div class={styles.lane} data-height={height}>
      <p>
        {own.name}
        <span>
          {height === 'low' ? count : `${countWords(own.cavities, 'cavity', 'cavities')}, ${count}`}
        </span>
      </p>
      <ShotRibbon
        shots={ribbonOf(own, chosen ?? null)}
        label={ribbonWords(own)}
        {...(height ? { height } : {})}
        {...(isBare ? { isBare } : {})}
        {...(onPress ? { onPress } : {})}
        {...(nameOf ? { nameOf } : {})}
      />
    </div>
  );
}
