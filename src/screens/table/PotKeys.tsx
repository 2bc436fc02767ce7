import { potStateAt, roundsLeft } from '#calc/pot-course.ts';
import type { Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import type { PotId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { usePotLetters } from '#screens/table/key-size.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { roundMl } from '#screens/table/round.ts';
import { Tally } from '#screens/table/Tally.tsx';
import styles from './Table.module.css';

interface Props {
  table: Table;
  now: Instant;
  heatLimit: number | null;
  /** The pot whose panel is open. */
  openPotId: PotId | null | undefined;
  onPress: (potId: PotId | null) => void;
}

/** The pot in use, or A and B of a laminate; with none, the key that mixes one. */
export function PotKeys({ table, now, heatLimit, openPotId, onPress }: Props) {
  const pots = table.potsInUse;
  if (pots.length === 0) {
    return (
      <PressKey kind={styles.pot} isExpanded={openPotId === null} onPress={() => onPress(null)}>
        <span class={styles.potName}>No pot</span>
        <span class={styles.potFacts}>Press to mix</span>
      </PressKey>
    );
  }
  const keys = pots.map((pot, index) => (
    <PotKey
      key={pot.id}
      pot={pot}
      side={pots.length > 1 ? 'ABCDEF'.charAt(index) : ''}
      state={potStateAt(pot, table.pourC, now)}
      left={roundsLeft(potStateAt(pot, table.pourC, now), roundMl(table) / pots.length)}
      now={now}
      heatLimit={heatLimit}
      isOpen={openPotId === pot.id}
      onPress={() => onPress(pot.id)}
    />
  ));
  return pots.length > 1 ? <div class={styles.pots}>{keys}</div> : keys[0];
}

interface KeyProps {
  pot: Pot;
  side: string;
  state: ReturnType<typeof potStateAt>;
  left: number | null;
  now: Instant;
  heatLimit: number | null;
  isOpen: boolean;
  onPress: () => void;
}

function PotKey({ pot, side, state, left, now, heatLimit, isOpen, onPress }: KeyProps) {
  const letters = usePotLetters();
  const minutes = Math.max(0, Math.floor((now - state.lastHeatedAt) / 60_000));
  const heats = Math.round(state.maxHeats);
  const isAtLimit = heatLimit !== null && heats >= heatLimit;
  return (
    <PressKey kind={styles.pot} isExpanded={isOpen} onPress={onPress}>
      <span class="said">Pot: </span>
      <span class={styles.potName}>
        {side && `${side} `}
        <span class={side ? styles.pairName : undefined}>
          <span class={styles.notStand}>{shortened(pot.name, side ? 7 : letters)}</span>
          <span class={styles.onlyStand}>{shortened(pot.name, side ? 4 : 8)}</span>
        </span>
      </span>
      <span class={styles.potFacts}>
        <span class={styles.heats}>
          {!side && <span class={styles.notStand}>heat</span>}
          <Tally heats={heats} isAtLimit={isAtLimit} />
          {isAtLimit && <span class="said">of your {heatLimit}</span>}
        </span>
        {!side && <span class={styles.onlyWide}>{minutes} min</span>}
        {left !== null && <span>{left} left</span>}
      </span>
    </PressKey>
  );
}

/** A long name keeps its beginning and its end, never smaller letters. */
export function shortened(name: string, most: number): string {
  if (name.length <= most) return name;
  const tail = Math.max(1, Math.floor((most - 1) / 4));
  return `${name.slice(0, most - 1 - tail).trimEnd()}…${name.slice(-tail)}`;
}
