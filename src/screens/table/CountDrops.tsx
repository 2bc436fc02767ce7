import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Pot } from '#calc/table-pots.ts';
import { type Counted, restWords, useDropCount } from '#screens/drop-count.ts';
import type { CountHand } from '#screens/table/count-hand.ts';
import { PressKey } from '#screens/table/PressKey.tsx';
import { shortened } from '#screens/table/shortened.ts';
import styles from './Table.module.css';

interface Props {
  pot: Pot;
  /** Gives the main key, Undo and the pedals to the count; null: they are the table's again. */
  onCounting: (hand: CountHand | null) => void;
  onBack: () => void;
}

/** The drops of a pot counted one by one, over the cards: by the key, by the main key or by the pedal. */
export function CountDrops({ pot, onCounting, onBack }: Props) {
  const of = useDropCount(dropsIn(pot), pot.id);
  const latest = useRef({ ...of, back: onBack });
  latest.current = { ...of, back: onBack };
  useLayoutEffect(() => {
    onCounting({
      add: () => latest.current.add(),
      undo: () => latest.current.undo(),
      bringBack: () => latest.current.bringBack(),
      back: () => latest.current.back(),
    });
    return () => onCounting(null);
  }, []);
  const { line, count, nextLine } = of;
  if (!line) return null;
  return (
    <section class={styles.drops} aria-label={`Drops, ${pot.name}`}>
      <h2>{shortened(line.name, 22)}</h2>
      <button
        type="button"
        class={`${styles.key} ${styles.drop}`}
        data-reached={count >= line.drops || undefined}
        onClick={of.add}
      >
        <span>Drop</span> <b>{count}</b> <span>{restWords(count, line.drops)}</span>
      </button>
      <div class={styles.keyRow}>
        <PressKey onPress={of.undo}>Undo a drop</PressKey>
        {nextLine && (
          <PressKey onPress={of.next} label={`Next ${nextLine.name}`}>
            Next <span class={styles.keySmall}>{shortened(nextLine.name, 12)}</span>
          </PressKey>
        )}
      </div>
    </section>
  );
}

/** What went into a pot by drops, as its mix was frozen; empty: nothing did. */
export function dropsIn({ mix }: Pot): Counted[] {
  return (mix?.doses ?? [])
    .filter(({ unit, amount }) => unit === 'drop' && amount > 0)
    .map(({ name, amount }, index) => ({ id: String(index), name, drops: amount }));
}
