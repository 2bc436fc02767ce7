import type { Lab } from '#calc/colour.ts';
import { cssColour } from '#screens/ColourSpot.tsx';
import styles from './MeetingLine.module.css';

interface Props {
  /** From side A over the line to side B, five steps. */
  steps: readonly Lab[];
  /** How many times as strong side A is as side B. */
  strength: number;
  names: readonly [a: string, b: string];
}

/** The most and the least of the picture that one side takes. */
const most = 4;

/** Side A, the line where they meet in five steps, side B. How wide the line is, is decoration. */
export function MeetingLine({ steps, strength, names: [a, b] }: Props) {
  const share = Math.min(Math.max(strength, 1 / most), most);
  return (
    <div>
      <div
        class={styles.line}
        role="img"
        aria-label={`${a}, the line where they meet, ${b}: a guess`}
        style={{ '--a': share, '--b': 1 / share }}
      >
        {steps.map((lab, at) => (
          <i key={at} style={{ '--swatch': cssColour(lab) }} />
        ))}
      </div>
      <p class={styles.words}>
        <span>A: {a}</span>
        <span>B: {b}</span>
      </p>
    </div>
  );
}
