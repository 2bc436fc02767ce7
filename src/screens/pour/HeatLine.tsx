import { clockText } from '#calc/days.ts';
import type { HeatMark } from '#calc/heat-marks.ts';
import styles from './HeatLine.module.css';

/** Each heat with its time; with the pot's name where there was more than one. */
export function HeatLine({ marks, zone }: { marks: readonly HeatMark[]; zone: string }) {
  if (marks.length === 0) return null;
  const hasSeveral = new Set(marks.map(({ potId }) => potId)).size > 1;
  return (
    <ol class={styles.line} aria-label="Heats">
      {marks.map(({ potId, pot, at, heat }) => (
        <li key={`${potId} ${at} ${heat}`}>
          {clockText(at, zone)} {hasSeveral && `${pot} `}heat {heat}
        </li>
      ))}
    </ol>
  );
}
