import { scaleOf } from '#ui/plot.ts';
import { useSize } from '#ui/use-size.ts';
import styles from './Chart.module.css';

/** One place on the scale below: what was seen of a hundred, and its range. */
export interface Whisker {
  label: string;
  /** Null: nothing was seen there. */
  p: number | null;
  lo: number;
  hi: number;
  /** An open dot: before the line between cold and warm, or too few to tell. */
  isOpen: boolean;
  /** A second line under the label: how much stands behind it. */
  under?: string;
}

interface Props {
  whiskers: readonly Whisker[];
  /** What the places below are: `shot`. */
  across: string;
  /** The words over the open dots, which come first on a shade, and over the filled ones. */
  words?: readonly [open: string, filled: string];
  /** The top of the scale; 100 unless told. */
  to?: number;
  /** The whole picture in words. */
  label: string;
}

const heightPx = 210;
const top = 28;
/** The room over the plot where no words stand there. */
const bare = 12;
const line = 19;
const bottom = 46;
const left = 38;
const right = 8;

/** A dot with its range for every place: open dots stand on a shade of their own. */
export function WhiskerChart({ whiskers, across, words, to = 100, label }: Props) {
  const [box, { widthPx }] = useSize<HTMLDivElement>();
  const hasUnder = whiskers.some(({ under }) => under !== undefined);
  const plot = {
    from: left,
    to: Math.max(left + 40, widthPx - right),
    high: words ? top : bare,
    low: heightPx - bottom - (hasUnder ? line : 0),
  };
  const step = (plot.to - plot.from) / Math.max(1, whiskers.length);
  const x = (index: number) => plot.from + (index + 0.5) * step;
  const y = scaleOf([0, to], [plot.low, plot.high]);
  const open = words ? whiskers.filter(({ isOpen }) => isOpen).length : 0;
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
              {words?.[0]}
            </text>
          )}
          {open > 0 && open < whiskers.length && (
            <text x={(edge + plot.to) / 2} y={top - 9} text-anchor="middle" data-strong>
              {words?.[1]}
            </text>
          )}
          <path d={`M${plot.from} ${plot.high}V${plot.low}H${plot.to}`} />
          <path d={`M${plot.from} ${y(to / 2)}H${plot.to}`} data-dots />
          {[0, to / 2, to].map((share) => (
            <text key={share} x={plot.from - 8} y={y(share) + 5} text-anchor="end">
              {share}
            </text>
          ))}
          {whiskers.map((each, index) => (
            <g key={each.label}>
              {each.p !== null && each.hi > each.lo && (
                <path
                  d={`M${x(index)} ${y(each.hi)}V${y(each.lo)}M${x(index) - 5} ${y(each.hi)}h10M${x(index) - 5} ${y(each.lo)}h10`}
                />
              )}
              {each.p !== null && (
                <circle cx={x(index)} cy={y(each.p)} r={6} data-open={each.isOpen || undefined} />
              )}
              <text x={x(index)} y={plot.low + 20} text-anchor="middle">
                {each.label}
              </text>
              {each.under !== undefined && (
                <text x={x(index)} y={plot.low + 20 + line} text-anchor="middle">
                  {each.under}
                </text>
              )}
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
