import { ticks } from 'd3-array';
import { line } from 'd3-shape';
import { scaleOf } from '#ui/plot.ts';
import { useSize } from '#ui/use-size.ts';
import styles from './Chart.module.css';

export interface ChartPoint {
  x: number;
  y: number;
}

interface Props {
  /** The lines that matter, their points as dots. */
  lines: readonly (readonly ChartPoint[])[];
  /** The lines to hold them against, dashed and without dots. */
  ghosts: readonly (readonly ChartPoint[])[];
  /** Between which values it is liked to run; null: nobody said. */
  band: { from: number; to: number } | null;
  /** What the numbers below are. */
  across: string;
  /** The whole picture in words. */
  label: string;
}

const heightPx = 180;
const top = 12;
const bottom = 44;
const left = 38;
const right = 12;
const ticksUp = 4;
/** Room that one number below needs, px. */
const tickRoomPx = 64;

/** A course over time, with another one dashed behind it and the liked band shaded. */
export function LineChart({ lines, ghosts, band, across, label }: Props) {
  const [box, { widthPx }] = useSize<HTMLDivElement>();
  const points = lines.flat();
  const all = [...points, ...ghosts.flat()];
  const values = [...all.map(({ y }) => y), ...(band ? [band.from, band.to] : [])];
  const [low, high] = [Math.min(...values) - 2, Math.max(...values) + 2];
  const last = Math.max(1, ...all.map(({ x }) => x));
  const first = Math.min(0, ...all.map(({ x }) => x));
  const floor = heightPx - bottom;
  const end = Math.max(left + 40, widthPx - right);
  const px = scaleOf([first, last], [left, end]);
  const py = scaleOf([low, high], [floor, top]);
  const path = line<ChartPoint>(
    ({ x }) => px(x),
    ({ y }) => py(y),
  );
  const pathOf = (some: Props['lines']) => some.map((one) => path([...one]) ?? '').join('');
  return (
    <div class={styles.chart} ref={box}>
      {widthPx > 0 && (
        <svg viewBox={`0 0 ${widthPx} ${heightPx}`} height={heightPx} role="img" aria-label={label}>
          {band && (
            <rect
              x={left}
              y={py(band.to)}
              width={end - left}
              height={py(band.from) - py(band.to)}
            />
          )}
          <path d={`M${left} ${top}V${floor}H${end}`} />
          {ticks(low, high, ticksUp).map((value) => (
            <text key={value} x={left - 8} y={py(value) + 5} text-anchor="end">
              {value}
            </text>
          ))}
          {ticks(first, last, Math.max(1, (end - left) / tickRoomPx)).map((value) => (
            <text key={value} x={px(value)} y={floor + 19} text-anchor="middle">
              {value}
            </text>
          ))}
          <path d={pathOf(ghosts)} data-dashes />
          <path d={pathOf(lines)} data-thick />
          {points.map(({ x, y }) => (
            <circle key={`${x} ${y}`} cx={px(x)} cy={py(y)} r={4} />
          ))}
          <text x={(left + end) / 2} y={heightPx - 4} text-anchor="middle">
            {across}
          </text>
        </svg>
      )}
    </div>
  );
}
