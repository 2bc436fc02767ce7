import styles from './Spoons.module.css';

interface Props {
  /** Spoons in eighths of a teaspoon, the largest first. */
  spoons: readonly number[];
  /** In words, for a screen reader. */
  label: string;
}

/** What is written in each spoon of a set, by its eighths of a teaspoon. */
const written: Record<number, string> = { 24: 'tbsp', 8: '1', 4: '½', 2: '¼', 1: '⅛' };
/** How large each is drawn: by its volume, so that a glance tells them apart. */
const bowlPx: Record<number, number> = { 24: 30, 8: 25, 4: 20, 2: 17, 1: 14 };

/** Measuring spoons as they are filled, one after the other. */
export function Spoons({ spoons, label }: Props) {
  const drawn: { id: string; size: number; bowl: number; x: number }[] = [];
  let x = 2;
  for (const [index, size] of spoons.entries()) {
    const bowl = bowlPx[size] ?? 14;
    drawn.push({ id: `${index}`, size, bowl, x });
    x += 2 * bowl + 44;
  }
  return (
    <svg class={styles.spoons} role="img" aria-label={label} viewBox={`0 0 ${x} 64`}>
      {drawn.map(({ id, size, bowl, x: left }) => (
        <g key={id}>
          <circle cx={left + bowl} cy="32" r={bowl} />
          <path d={`M${left + 2 * bowl} 29h30a3 3 0 0 1 0 6h-30z`} />
          <text x={left + bowl} y="38">
            {written[size]}
          </text>
        </g>
      ))}
    </svg>
  );
}
