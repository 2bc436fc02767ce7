import type { Layout } from '#model/mould.ts';

/** One cavity on the picture of its mould; row and column count from 1. */
export interface Spot {
  cavity: number;
  row: number;
  col: number;
}

/** How many cavities a mould has. */
export function cavityCount(layout: Layout): number {
  return layout.kind === 'grid' ? layout.rows * layout.cols : layout.spots.length;
}

/** Rows and columns of the picture: those of the grid, or of the coarsest grid that keeps free positions apart. */
export function pictureSize(layout: Layout): { rows: number; cols: number } {
  if (layout.kind === 'grid') return { rows: layout.rows, cols: layout.cols };
  const spots = freeSpots(layout.spots);
  return {
    rows: Math.max(...spots.map((spot) => spot.row)),
    cols: Math.max(...spots.map((spot) => spot.col)),
  };
}

/**
 * Where each cavity lies when the mould is opened in its home position (the edge where the plastic
 * goes in is up), in counting order. `mirrored`: left and right change places.
 */
export function spotsOf(layout: Layout, opens: 'same' | 'mirrored'): Spot[] {
  const { cols } = pictureSize(layout);
  const spots = layout.kind === 'grid' ? gridSpots(layout) : freeSpots(layout.spots);
  return opens === 'same' ? spots : spots.map((spot) => ({ ...spot, col: cols + 1 - spot.col }));
}

function gridSpots(layout: Extract<Layout, { kind: 'grid' }>): Spot[] {
  const { rows, cols, run, from } = layout;
  return Array.from({ length: rows * cols }, (_, index) => {
    const along = run === 'down' ? rows : cols;
    const major = Math.floor(index / along);
    const minor = index % along;
    const [down, across] = run === 'down' ? [minor, major] : [major, minor];
    return {
      cavity: index + 1,
      row: from.startsWith('top') ? down + 1 : rows - down,
      col: from.endsWith('left') ? across + 1 : cols - across,
    };
  });
}

/**
 * Free positions sorted into rows (gaps of under a twelfth of the height are one row) and, inside a
 * row, into columns from left to right. Two cavities never share a place.
 */
function freeSpots(places: readonly { x: number; y: number }[]): Spot[] {
  const byHeight = places.map((place, index) => ({ ...place, cavity: index + 1 }));
  byHeight.sort((a, b) => a.y - b.y || a.x - b.x);
  const rows: (typeof byHeight)[] = [];
  for (const place of byHeight) {
    const row = rows.at(-1);
    const top = row?.[0];
    if (row && top && place.y - top.y < 1 / 12) row.push(place);
    else rows.push([place]);
  }
  return rows
    .flatMap((row, rowIndex) =>
      row
        .toSorted((a, b) => a.x - b.x)
        .map((place, colIndex) => ({
          cavity: place.cavity,
          row: rowIndex + 1,
          col: colIndex + 1,
        })),
    )
    .sort((a, b) => a.cavity - b.cavity);
}
