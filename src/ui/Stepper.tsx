import { useHold } from '#ui/use-hold.ts';
import styles from './Stepper.module.css';

interface Props {
  /** What is stepped, for a screen reader. */
  label: string;
  /** The value in words. */
  value: string;
  /** A quiet line under the value: where it comes from, or that an end is reached. */
  small?: string;
  /** What it was the last time; undefined: never. */
  last?: string | undefined;
  lessName: string;
  moreName: string;
  onLess: () => void;
  onMore: () => void;
}

/** A value between a minus and a plus key, which repeat while held: no typing, eyes stay on the value. */
export function Stepper({ label, value, small, last, lessName, moreName, onLess, onMore }: Props) {
  const less = useHold(onLess, value);
  const more = useHold(onMore, value);
  return (
    <div class={styles.step} role="group" aria-label={label}>
      <button type="button" aria-label={lessName} {...less}>
        −
      </button>
      <output>
        {value}
        {small && <small>{small}</small>}
        {last && <small class={styles.last}>Last: {last}</small>}
      </output>
      <button type="button" aria-label={moreName} {...more}>
        +
      </button>
    </div>
  );
}
