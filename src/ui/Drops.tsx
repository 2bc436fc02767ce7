import styles from './Drops.module.css';

interface Props {
  /** Drops in each group, five at most: `[5, 5, 2]`. */
  groups: readonly number[];
  /** Their colour; null: not known. */
  swatch: string | null;
  /** How many groups stand in one row. */
  perRow?: number;
  /** In words, for a screen reader. */
  label: string;
}

const dotPx = 18;
const pitchPx = 22;
const groupPx = 5 * pitchPx + 10;
const rowPx = 26;

/** Drops as dots in fives, as one counts them. */
export function Drops({ groups, swatch, perRow = 3, label }: Props) {
  const rows = Math.max(1, Math.ceil(groups.length / perRow));
  const dots = groups.flatMap((count, group) =>
    Array.from({ length: count }, (_, dot) => ({
      id: group * 5 + dot,
      x: (group % perRow) * groupPx + dot * pitchPx + dotPx / 2 + 2,
      y: Math.floor(group / perRow) * rowPx + dotPx / 2 + 2,
    })),
  );
  return (
    <svg
      class={styles.drops}
      role="img"
      aria-label={label}
      viewBox={`0 0 ${perRow * groupPx} ${rows * rowPx - 4}`}
      style={{ '--rows': rows }}
    >
      {dots.map(({ id, x, y }) => (
        <circle key={id} cx={x} cy={y} r={dotPx / 2} style={{ '--swatch': swatch }} />
      ))}
    </svg>
  );
}
