/** How a map of cells is shown in the room there is. */
export interface MapView {
  /** A quarter turn to the left: the notch lies left, and rows become columns. */
  isTurned: boolean;
  /** Equal parts along the longer way of the picture; 1: the whole map. */
  parts: number;
  /** Rows and columns of one part as it is drawn. */
  rows: number;
  cols: number;
}

/** Room for a map, CSS px. */
export interface MapRoom {
  widthPx: number;
  heightPx: number;
  /** No cell may be smaller than this either way. */
  cellPx: number;
  gapPx: number;
  /** Height that the keys for the parts take, with their gap. */
  partKeysPx: number;
}

/**
 * The whole map where every cell is large enough, upright if it can be; else the fewest equal
 * parts that are. In too small a room the smallest parts come out, down to single cells.
 */
export function mapViewIn(room: MapRoom, size: { rows: number; cols: number }): MapView {
  const turns = [false, true].map((isTurned) => ({
    isTurned,
    rows: isTurned ? size.cols : size.rows,
    cols: isTurned ? size.rows : size.cols,
  }));
  const whole = turns.find(({ rows, cols }) => fits(room, rows, cols, room.heightPx));
  if (whole) return { ...whole, parts: 1 };
  const split = turns
    .flatMap((turn) => partings(turn))
    .filter(({ rows, cols }) => fits(room, rows, cols, room.heightPx - room.partKeysPx))
    .sort((a, b) => a.parts - b.parts || Number(a.isTurned) - Number(b.isTurned));
  return split[0] ?? { isTurned: false, parts: size.rows * size.cols, rows: 1, cols: 1 };
}

/** Every way to cut the picture into equal bands across its rows, or across its columns, or both. */
function partings(turn: { isTurned: boolean; rows: number; cols: number }): MapView[] {
  const views: MapView[] = [];
  for (let down = 1; down <= turn.rows; down += 1) {
    for (let across = 1; across <= turn.cols; across += 1) {
      if (down * across === 1) continue;
      const rows = Math.ceil(turn.rows / down);
      const cols = Math.ceil(turn.cols / across);
      const parts = Math.ceil(turn.rows / rows) * Math.ceil(turn.cols / cols);
      views.push({ isTurned: turn.isTurned, parts, rows, cols });
    }
  }
  return views;
}

function fits(room: MapRoom, rows: number, cols: number, heightPx: number): boolean {
  const high = (heightPx - room.gapPx * (rows - 1)) / rows;
  const wide = (room.widthPx - room.gapPx * (cols - 1)) / cols;
  return Math.min(high, wide) >= room.cellPx;
}
