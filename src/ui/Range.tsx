import styles from './Range.module.css';

interface Props {
  /** What happened, and what to expect: all in units of the scale. */
  p: number;
  lo: number;
  hi: number;
  /** The whole picture in words. */
  label: string;
  from?: number;
  to?: number;
  /** Writes the ends of the scale and these words between them. */
  scale?: string;
}

/** A line for the scale, an open bar for what to expect, a dot for what happened. */
export function Range({ p, lo, hi, label, from = 50, to = 100, scale }: Props) {
  const held = (value: number) => Math.min(to, Math.max(from, value));
  const numbers = {
    '--p': held(p),
    '--lo': held(lo),
    '--hi': held(hi),
    '--from': from,
    '--to': to,
  };
  return (
    <div>
      <div class={styles.range} role="img" aria-label={label} style={numbers}>
        <i />
        <b />
      </div>
      {scale && (
        <p class={styles.scale} aria-hidden="true">
          <span>{from}</span>
          <span>{scale}</span>
          <span>{to}</span>
        </p>
      )}
    </div>
  );
}
