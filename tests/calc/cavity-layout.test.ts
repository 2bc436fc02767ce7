import { describe, expect, test } from 'vitest';
import { cavityCount, pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import { topLeftCavity, topLeftChoices } from '#calc/top-left.ts';
import type { Layout } from '#model/mould.ts';

type Grid = Extract<Layout, { kind: 'grid' }>;

/** The open mould as a person would write it down: a line a row, the notch above. */
function drawn(layout: Layout, opens: 'same' | 'mirrored' = 'same'): string[] {
  const { rows, cols } = pictureSize(layout);
  const plan = Array.from({ length: rows }, () => Array.from({ length: cols }, () => '.'));
  for (const { cavity, row, col } of spotsOf(layout, opens)) {
    const line = plan[row - 1] ?? [];
    expect(line[col - 1], `cavity ${cavity} lies where another does`).toBe('.');
    line[col - 1] = String(cavity);
  }
  return plan.map((line) => line.join(' '));
}

const grid = (run: Grid['run'], from: Grid['from']): Grid => ({
  kind: 'grid',
  rows: 3,
  cols: 2,
  run,
  from,
});

/** Six cavities, 2 across and 3 down, numbered by hand on paper. */
const byHand = [
  ['down', 'top-left', ['1 4', '2 5', '3 6']],
  ['down', 'top-right', ['4 1', '5 2', '6 3']],
  ['down', 'bottom-left', ['3 6', '2 5', '1 4']],
  ['down', 'bottom-right', ['6 3', '5 2', '4 1']],
  ['across', 'top-left', ['1 2', '3 4', '5 6']],
  ['across', 'top-right', ['2 1', '4 3', '6 5']],
  ['across', 'bottom-left', ['5 6', '3 4', '1 2']],
  ['across', 'bottom-right', ['6 5', '4 3', '2 1']],
] as const;

describe('cavities in rows and columns', () => {
  test.each(byHand)('counted %s from %s lie as drawn by hand', (run, from, plan) => {
    expect(drawn(grid(run, from))).toEqual(plan);
  });

  test.each(byHand)(
    'counted %s from %s, left and right change places in the other half',
    (...by) => {
      const [run, from, plan] = by;
      const turned = plan.map((line) => line.split(' ').reverse().join(' '));
      expect(drawn(grid(run, from), 'mirrored')).toEqual(turned);
    },
  );
});

describe('the cavity that is top left', () => {
  test.each(byHand)('counted %s from %s is the first of the drawing', (run, from, [first]) => {
    expect(topLeftCavity(grid(run, from), 'same')).toBe(Number(first.split(' ')[0]));
  });

  test('can be one of four, and choosing it puts it there', () => {
    for (const run of ['down', 'across'] as const) {
      const choices = topLeftChoices(grid(run, 'top-left'));
      // The four corners of the drawing, by hand: 1, 3, 4, 6 and 1, 2, 5, 6.
      expect(choices.map(({ cavity }) => cavity)).toEqual(
        run === 'down' ? [1, 3, 4, 6] : [1, 2, 5, 6],
      );
      for (const { cavity, from } of choices) {
        expect(drawn(grid(run, from))[0]?.split(' ')[0]).toBe(String(cavity));
      }
    }
  });

  test.each([
    [8, 1, [1, 8]],
    [1, 5, [1, 5]],
    [1, 1, [1]],
  ])('of %i rows and %i columns can be one of %j', (rows, cols, expected) => {
    for (const run of ['down', 'across'] as const) {
      const choices = topLeftChoices({ ...grid(run, 'top-left'), rows, cols });
      expect(choices.map(({ cavity }) => cavity)).toEqual(expected);
    }
  });
});

describe('cavities that lie anywhere', () => {
  const layout: Layout = {
    kind: 'free',
    spots: [
      { x: 0.8, y: 0.9 },
      { x: 0.2, y: 0.1 },
      { x: 0.5, y: 0.15 },
      { x: 0.3, y: 0.9 },
      { x: 0.5, y: 0.5 },
    ],
  };

  test('keep their numbers and their rows', () => {
    expect(cavityCount(layout)).toBe(5);
    expect(drawn(layout)).toEqual(['2 3', '5 .', '4 1']);
  });

  test('never share a place, however close they lie', () => {
    const spots = Array.from({ length: 7 }, () => ({ x: 0.5, y: 0.5 }));
    expect(drawn({ kind: 'free', spots })).toEqual(['1 2 3 4 5 6 7']);
  });
});
