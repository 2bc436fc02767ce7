import { Stepper } from '#ui/Stepper.tsx';
import styles from './Rows.module.css';

interface Props {
  title: string;
  /** A sentence under the title. */
  says?: string;
  /** The value in words. */
  words: string;
  /** A quiet line under the value. */
  small: string;
  /** What one press changes, in words. */
  step: string;
  onStep: (by: -1 | 1) => void;
}

/** A number of the shop, by steps. */
export function StepRow({ title, says, words, small, step, onStep }: Props) {
  return (
    <div class={styles.group}>
      <h3>{title}</h3>
      {says && <p>{says}</p>}
      <Stepper
        label={title}
        value={words}
        small={small}
        lessName={`${step} less`}
        moreName={`${step} more`}
        onLess={() => onStep(-1)}
        onMore={() => onStep(1)}
      />
    </div>
  );
}
