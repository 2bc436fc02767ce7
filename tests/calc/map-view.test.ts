import { describe, expect, test } from 'vitest';
import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import { mapViewIn } from '#calc/map-view.ts';
import type { Layout } from '#model/mould.ts';

const room = { cellPx: 72, gapPx: 8, partKeysPx: 80 };

describe('the map of cavities', () => {
  // The table of pour-table.md 4.5, computed there: smallest cell side, or parts.
  test.each([
    [
      '360 x 740',
      344,
      400,
      { '1x5': 73, '2x4': 94, '2x5': 73, '1x8': 0, '2x6': 0, '4x4': 80, '4x5': 73, '6x8': 0 },
    ],
    [
      '412 x 915',
      396,
      567,
      { '1x5': 107, '2x4': 136, '2x5': 107, '1x8': 0, '2x6': 88, '4x4': 93, '4x5': 93, '6x8': 0 },
    ],
    [
      '740 x 360',
      560,
      256,
      { '1x5': 106, '2x4': 124, '2x5': 106, '1x8': 0, '2x6': 87, '4x4': 0, '4x5': 0, '6x8': 0 },
    ],
    [
      '320 x 568',
      304,
      236,
      { '1x5': 0, '2x4': 0, '2x5': 0, '1x8': 0, '2x6': 0, '4x4': 0, '4x5': 0, '6x8': 0 },
    ],
  ])(
    'is whole at %s exactly where every cell is at least 72 px',
    (_name, widthPx, heightPx, moulds) => {
      for (const [shape, side] of Object.entries(moulds)) {
        const [cols = 1, rows = 1] = shape.split('x').map(Number);
        const view = mapViewIn({ ...room, widthPx, heightPx }, { rows, cols });
        expect(view.parts === 1, shape).toBe(side > 0);
      }
    },
  );

  test('never has a cell under 72 px, from 1x1 to 6x8, and its parts hold every cavity once', () => {
    for (const [widthPx, heightPx] of [
      [344, 400],
      [396, 567],
      [560, 256],
      [304, 236],
      [700, 600],
    ]) {
      for (let rows = 1; rows <= 8; rows += 1) {
        for (let cols = 1; cols <= 6; cols += 1) {
          const size = { widthPx: widthPx ?? 0, heightPx: heightPx ?? 0 };
          const view = mapViewIn({ ...room, ...size }, { rows, cols });
          const high = size.heightPx - (view.parts > 1 ? room.partKeysPx : 0);
          expect((size.widthPx - 8 * (view.cols - 1)) / view.cols).toBeGreaterThanOrEqual(72);
          expect((high - 8 * (view.rows - 1)) / view.rows).toBeGreaterThanOrEqual(72);
          expect(view.rows * view.cols * view.parts).toBeGreaterThanOrEqual(rows * cols);
        }
      }
    }
  });

  test('free positions lie in rows from the top and columns from the left', () => {
    const layout: Layout = {
      kind: 'free',
      spots: [
        { x: 0.8, y: 0.1 },
        { x: 0.2, y: 0.12 },
        { x: 0.5, y: 0.9 },
      ],
    };
    expect(spotsOf(layout, 'same')).toEqual([
      { cavity: 1, row: 1, col: 2 },
      { cavity: 2, row: 1, col: 1 },
      { cavity: 3, row: 2, col: 1 },
    ]);
    expect(pictureSize(layout)).toEqual({ rows: 2, cols: 2 });
  });
});
