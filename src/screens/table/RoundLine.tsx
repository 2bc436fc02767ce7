import type { Table } from '#calc/table.ts';
import type { Count } from '#calc/tonight.ts';
import { useShop } from '#live/shop.ts';
import type { Instant } from '#model/schemas.ts';
import styles from './Table.module.css';

interface Props {
  table: Table;
  count: Count;
  now: Instant;
  isAwake: boolean;
  isMuted: boolean;
}

/** Where the evening is: round, time, good so far, not checked, and what is wrong with the phone. */
export function RoundLine({ table, count, now, isAwake, isMuted }: Props) {
  const isDemo = useShop().leaveDemo !== null;
  const minutes = Math.max(0, Math.floor((now - table.begunAt) / 60_000));
  const hours = Math.floor(minutes / 60);
  const rest = String(minutes % 60).padStart(2, '0');
  const { good, notChecked } = count;
  const isFull = notChecked > 0 || !isAwake;
  return (
    // What is wrong takes the place of the time, then of the count and the round: the sheet says where.
    <section
      class={styles.line}
      aria-label="This evening"
      data-muted={isMuted || undefined}
      data-sleepy={!isAwake || undefined}
      data-unchecked={notChecked > 0 || undefined}
    >
      <span class={styles.lineRound}>
        {isDemo && 'Demo '}
        <span class={isDemo ? styles.onlyTablet : styles.notStand}>Round </span>
        <span class={isDemo ? styles.notTablet : styles.onlyStand}>R </span>
        {Math.max(1, table.rounds)}
      </span>
      <span class={isMuted ? styles.onlyTablet : isFull ? styles.spare : undefined}>
        <span class={styles.notStand}>{`${hours} h ${rest}`}</span>
        <span class={styles.onlyStand}>{`${hours}h${rest}`}</span>
      </span>
      {isMuted && <span>muted</span>}
      <span class={`${styles.lineGood} ${isMuted && isFull ? styles.spare : ''}`}>{good} good</span>
      {!isAwake && (
        <span class={styles.lineSleep}>
          <span>screen </span>may sleep
        </span>
      )}
      {notChecked > 0 && (
        <>
          <span class={styles.notStand}>{notChecked} not checked</span>
          <span class={styles.onlyStand}>{notChecked} to check</span>
        </>
      )}
    </section>
  );
}
