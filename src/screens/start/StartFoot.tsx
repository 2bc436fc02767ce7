import { Refusal } from '#screens/Refusal.tsx';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './StartFoot.module.css';

interface Props {
  /** What it starts with; null: nothing is chosen yet. */
  small: string | null;
  /** What to choose first. */
  first: string;
  /** What did not work, at the last press; empty: nothing. */
  refusal: string;
  onStart: () => void;
}

/** The key at the foot of a page that leads to the table, or what is missing before it can. */
export function StartFoot({ small, first, refusal, onStart }: Props) {
  return (
    <footer class={styles.foot}>
      <Refusal says={refusal} />
      {small === null ? (
        <p class={styles.first}>{first}</p>
      ) : (
        <ActKey size="main" small={small} onPress={onStart}>
          Start pouring
        </ActKey>
      )}
    </footer>
  );
}
