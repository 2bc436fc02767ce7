import { potStateAt } from '#calc/pot-course.ts';
import type { Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import type { PotId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import { Fitted } from '#screens/table/Fitted.tsx';
import { nextPots } from '#screens/table/next-pots.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import type { RoundsLeftOf } from '#screens/table/rounds-left.ts';
import { Tally } from '#screens/table/Tally.tsx';
import styles from './Table.module.css';

interface Props {
  table: Table;
  now: Instant;
  heatLimit: number | null;
  /** Undefined: what the history taught is not read yet. */
  leftOf: RoundsLeftOf | undefined;
  /** The pot whose panel is open. */
  openPotId: PotId | null | undefined;
  onPress: (potId: PotId | null) => void;
}

/**
 * The pot in use, or A and B side by side; of three or more the one that is poured next; with none,
 * the key that mixes one.
 */
export function PotKeys({ table, now, heatLimit, leftOf, openPotId, onPress }: Props) {
  const pots = table.potsInUse;
  if (pots.length === 0) {
    return (
      <PressKey kind={styles.pot} isExpanded={openPotId === null} onPress={() => onPress(null)}>
        <span class={styles.potName}>No pot</span>
        <span class={styles.potFacts}>Press to mix</span>
      </PressKey>
    );
  }
  const next = nextPots(table);
  const shown = pots.length > 2 ? next.slice(0, 1) : pots;
  const isLaminate = pots.length === 2;
  const keys = shown.map((pot) => (
    <PotKey
      key={pot.id}
      pot={pot}
      side={isLaminate ? 'AB'.charAt(pots.indexOf(pot)) : ''}
      others={pots.length > 2 ? pots.length - 1 : 0}
      isNext={next.includes(pot)}
      state={potStateAt(pot, table.pourC, now)}
      left={leftOf?.(table, pot)?.rounds ?? null}
      now={now}
      heatLimit={heatLimit}
      isOpen={openPotId === pot.id}
      onPress={() => onPress(pot.id)}
    />
  ));
  return isLaminate ? <div class={styles.pots}>{keys}</div> : keys[0];
}

interface KeyProps {
  pot: Pot;
  side: string;
  /** How many other pots stand behind this key. */
  others: number;
  /** False: the next pour comes from the other one. */
  isNext: boolean;
  state: ReturnType<typeof potStateAt>;
  left: number | null;
  now: Instant;
  heatLimit: number | null;
  isOpen: boolean;
  onPress: () => void;
}

function PotKey(props: KeyProps) {
  const { pot, side, others, isNext, state, left, now, heatLimit, isOpen, onPress } = props;
  const minutes = Math.max(0, Math.floor((now - state.lastHeatedAt) / 60_000));
  const heats = Math.round(state.maxHeats);
  const isAtLimit = heatLimit !== null && heats >= heatLimit;
  return (
    <PressKey kind={styles.pot} isExpanded={isOpen} onPress={onPress}>
      <span class="said">Pot: </span>
      <span class={styles.potName}>
        <Fitted name={pot.name} {...(side && { before: `${side} `, kind: styles.pairName })} />
      </span>
      <span class={styles.potFacts}>
        <span class={styles.heats}>
          {!side && <span class={styles.notStand}>heat</span>}
          <Tally heats={heats} isAtLimit={isAtLimit} />
          {isAtLimit && <span class="said">of your {heatLimit}</span>}
        </span>
        {!side && <span class={styles.onlyWide}>{minutes} min</span>}
        <PotTurn isNext={isNext} others={others} left={left} />
      </span>
    </PressKey>
  );
}

/** Rounds left; or that it waits for its turn, or that it is not alone. */
function PotTurn({ isNext, others, left }: Pick<KeyProps, 'isNext' | 'others' | 'left'>) {
  if (!isNext) return <span>waits</span>;
  if (others > 0) {
    return (
      <span>
        + {others}
        <span class={styles.leftWord}> more</span>
      </span>
    );
  }
  if (left === null) return null;
  return (
    <span>
      {left}
      <span class={styles.leftWord}> left</span>
    </span>
  );
}
