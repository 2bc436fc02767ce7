import { useSize } from '#ui/use-size.ts';
import styles from './Chart.module.css';

/** One place on the scale below: what was seen of a hundred, and its range. */
export interface Whisker {
  label: string;
  p: number;
  lo: number;
  hi: number;
  /** Before the line between cold and warm. */
  isOpen: boolean;
}

interface Props {
  whiskers: readonly Whisker[];
  /** What the places below are: `shot`. */
  across: string;
  /** The words over the open and the filled dots. */
  words: readonly [open: string, filled: string];
  /** The whole picture in words. */
  label: string;
}

const heightPx = 210;
const top = 28;
const bottom = 46;
const left = 38;
const right = 8;

/** A dot with its range for every place: open dots stand on a shade of their own. */
export function WhiskerChart({ whiskers, across, words, label }: Props) {
  const [box, { widthPx }] = useSize<HTMLDivElement>();
  const plot = {
    from: left,
    to: Math.max(left + 40, widthPx - right),
    high: top,
    low: heightPx - bottom,
  };
  const step = (plot.to - plot.from) / Math.max(1, whiskers.length);
  const x = (index: number) => plot.from + (index + 0.5) * step;
  const y = (share: number) => plot.low - (share / 100) * (plot.low - plot.high);
  const open = whiskers.filter(({ isOpen }) => isOpen).length;
  const edge = plot.from + open * step;
  return (
    <div class={styles.chart} ref={box}>
      {widthPx > 0 && (
        <svg viewBox={`0 0 ${widthPx} ${heightPx}`} height={heightPx} role="img" aria-label={label}>
          {open > 0 && (
            <rect
              x={plot.from}
              y={plot.high}
              width={edge - plot.from}
              height={plot.low - plot.high}
            />
          )}
          {open > 0 && (
            <text x={(plot.from + edge) / 2} y={top - 9} text-anchor="middle" data-strong>
              {words[0]}
            </text>
          )}
          {open > 0 && open < whiskers.length && (
            <text x={(edge + plot.to) / 2} y={top - 9} text-anchor="middle" data-strong>
              {words[1]}
            </text>
          )}
          <path d={`M${plot.from} ${plot.high}V${plot.low}H${plot.to}`} />
          <path d={`M${plot.from} ${y(50)}H${plot.to}`} data-dots />
          {[0, 50, 100].map((share) => (
            <text key={share} x={plot.from - 8} y={y(share) + 5} text-anchor="end">
              {share}
            </text>
          ))}
          {whiskers.map((each, index) => (
            <g key={each.label}>
              <path
                d={`M${x(index)} ${y(each.hi)}V${y(each.lo)}M${x(index) - 5} ${y(each.hi)}h10M${x(index) - 5} ${y(each.lo)}h10`}
              />
              <circle cx={x(index)} cy={y(each.p)} r={6} data-open={each.isOpen || undefined} />
              <text x={x(index)} y={plot.low + 20} text-anchor="middle">
                {each.label}
              </text>
            </g>
          ))}
          <text x={(plot.from + plot.to) / 2} y={heightPx - 5} text-anchor="middle">
            {across}
          </text>
        </svg>
      )}
    </div>
  );
}
