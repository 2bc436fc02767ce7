import { nice, ticks } from 'd3-array';
import { scaleOf } from '#ui/plot.ts';
import { useSize } from '#ui/use-size.ts';
import styles from './Chart.module.css';

interface Props {
  /** One value of a hundred per shot, in order. */
  values: readonly number[];
  /** What is normal, and above what a single value is odd. */
  centre: number;
  upper: number;
  /** Single values that are odd by themselves, by their place from 0: drawn larger and open. */
  odd?: readonly number[];
  /** Shot from 1 from which things ran differently; null: none. */
  sinceShot: number | null;
  across: string;
  /** The whole picture in words. */
  label: string;
}

const heightPx = 170;
const top = 12;
const bottom = 44;
const left = 38;
const right = 8;
const ticksUp = 3;

/** Values in the order they came, with normal as a line and the limit of a single one dashed. */
export function RunChart({ values, centre, upper, odd = [], sinceShot, across, label }: Props) {
  const [box, { widthPx }] = useSize<HTMLDivElement>();
  const [, most] = nice(0, Math.max(10, upper, ...values), ticksUp);
  const to = Math.max(left + 40, widthPx - right);
  const low = heightPx - bottom;
  const step = (to - left) / Math.max(1, values.length);
  const x = (index: number) => left + (index + 0.5) * step;
  const y = scaleOf([0, most], [low, top]);
  const marks = new Set([1, values.length, ...(sinceShot ? [sinceShot] : [])]);
  return (
    <div class={styles.chart} ref={box}>
      {widthPx > 0 && (
        <svg viewBox={`0 0 ${widthPx} ${heightPx}`} height={heightPx} role="img" aria-label={label}>
          {sinceShot && (
            <rect
              x={x(sinceShot - 1) - step / 2}
              y={top}
              width={to - x(sinceShot - 1) + step / 2}
              height={low - top}
            />
          )}
          <path d={`M${left} ${top}V${low}H${to}`} />
          <path d={`M${left} ${y(centre)}H${to}`} data-thick />
          <path d={`M${left} ${y(upper)}H${to}`} data-dashes />
          {ticks(0, most, ticksUp).map((value) => (
            <text key={value} x={left - 8} y={y(value) + 5} text-anchor="end">
              {value}
            </text>
          ))}
          {values.map((value, index) => (
            <circle
              key={`${index + 1}`}
              cx={x(index)}
              cy={y(value)}
              r={odd.includes(index) ? 6 : 3}
              data-open={odd.includes(index) || undefined}
            />
          ))}
          {[...marks].map((shot) => (
            <text key={shot} x={x(shot - 1)} y={low + 19} text-anchor="middle">
              {shot}
            </text>
          ))}
          <text x={(left + to) / 2} y={heightPx - 4} text-anchor="middle">
            {across}
          </text>
        </svg>
      )}
    </div>
  );
}
