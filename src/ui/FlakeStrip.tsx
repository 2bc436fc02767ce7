import styles from './FlakeStrip.module.css';

interface Props {
  /** Width of a piece in CSS px at its true size. */
  acrossPx: number;
  cut: 'hex' | 'square';
  swatch: string | null;
  label: string;
}

const widthPx = 280;
const highPx = 36;
const pieces = 40;

/** Pieces of flake at their true size, strewn evenly (additive recurrence, the plastic number). */
export function FlakeStrip({ acrossPx, cut, swatch, label }: Props) {
  return (
    <svg
      class={styles.flake}
      role="img"
      aria-label={label}
      width={widthPx}
      height={highPx}
      viewBox={`0 0 ${widthPx} ${highPx}`}
    >
      {Array.from({ length: pieces }, (_, piece) => {
        const x = ((0.5 + (piece + 1) * 0.7548776662) % 1) * widthPx;
        const y = ((0.5 + (piece + 1) * 0.569840291) % 1) * highPx;
        return (
          <polygon
            key={x}
            points={outline(cut, acrossPx, x, y, piece)}
            style={{ '--swatch': swatch }}
          />
        );
      })}
    </svg>
  );
}

/** A hexagon one wide between its flats, or a square, turned a little more with every piece. */
function outline(cut: 'hex' | 'square', across: number, x: number, y: number, turn: number) {
  const corners = cut === 'hex' ? 6 : 4;
  const radius = across / 2 / Math.cos(Math.PI / corners);
  return Array.from({ length: corners }, (_, corner) => {
    const angle = ((corner + turn * 0.38) / corners) * 2 * Math.PI;
    return `${(x + radius * Math.cos(angle)).toFixed(2)},${(y + radius * Math.sin(angle)).toFixed(2)}`;
  }).join(' ');
}
