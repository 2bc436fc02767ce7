import styles from './GridPicture.module.css';

export interface PictureCell {
  number: number;
  row: number;
  col: number;
  /** Ink from the left, 0 to 1. */
  share: number;
  isClosed?: boolean;
  isWorst?: boolean;
  /** Words at the right of a large cell. */
  words?: string;
}

interface Props {
  rows: number;
  cols: number;
  cells: readonly PictureCell[];
  /** The whole picture in words; leave out where the words stand beside it. */
  label?: string;
  /** `large`: with numbers and words in the cells; `small`: a thumbnail for choosing. */
  size?: 'large' | 'small';
}

/** Cells too narrow for number, ink and words side by side stack them; very many go closer too. */
function narrowOf(cols: number): 'stacked' | 'close' | undefined {
  if (cols > 6) return 'close';
  return cols > 3 ? 'stacked' : undefined;
}

/** Cells in rows and columns under a notch; ink rises in a cell as its share rises. */
export function GridPicture({ rows, cols, cells, label, size }: Props) {
  const said = label ? { role: 'img', 'aria-label': label } : { 'aria-hidden': true };
  return (
    <div
      class={styles.pic}
      data-size={size}
      data-narrow={(size === 'large' && narrowOf(cols)) || undefined}
      {...(said as object)}
      style={{ '--rows': rows, '--cols': cols }}
    >
      <i />
      {cells.map((cell) => (
        <span
          key={cell.number}
          style={{ '--r': cell.row, '--c': cell.col, '--share': cell.share.toFixed(3) }}
          data-full={cell.share >= 1 || undefined}
          data-worst={(cell.isWorst && cell.share < 1) || undefined}
          data-closed={cell.isClosed || undefined}
        >
          {size === 'large' && (
            <>
              <b>{cell.number}</b>
              <em>{cell.words}</em>
            </>
          )}
        </span>
      ))}
    </div>
  );
}
