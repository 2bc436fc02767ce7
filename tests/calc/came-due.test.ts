import { expect, test } from 'vitest';
import { cameDue } from '#calc/came-due.ts';
import { tableOf } from '#calc/table.ts';
import { evening, id, Pen } from '../hands/log.ts';

const min = 60_000;

/** Mould 1 is due at 4 min, mould 2 at 5 min. */
function twoFilled(): Pen {
  const pen = new Pen().open();
  pen.fill(1, 1, evening + min);
  pen.fill(2, 2, evening + 2 * min);
  return pen;
}

const due = (pen: Pen, fromMin: number, toMin: number) =>
  cameDue(tableOf(pen.entries), evening + fromMin * min, evening + toMin * min).map(
    ({ seat, at }) => [seat.mould.name, (at - evening) / min],
  );

test('moulds that ran out in the span are found, the one that waits longest first', () => {
  expect(due(twoFilled(), 2, 9)).toEqual([
    ['Mould 1', 4],
    ['Mould 2', 5],
  ]);
});

test('the span begins after its first instant and ends with its last', () => {
  expect(due(twoFilled(), 4, 9)).toEqual([['Mould 2', 5]]);
  expect(due(twoFilled(), 2, 4)).toEqual([['Mould 1', 4]]);
  expect(due(twoFilled(), 6, 9)).toEqual([]);
});

test('a logged shot, a clock ended by hand and a shot without a clock surprise nobody', () => {
  const pen = twoFilled();
  pen.log(1, ['good', 'good', 'good', 'good'], evening + 3 * min);
  pen.write({ kind: 'clock-stopped', shotId: id('shot', 2) }, evening + 3 * min);
  expect(due(pen, 2, 9)).toEqual([]);
  pen.fill(1, 3, evening + 4 * min, null);
  expect(due(pen, 2, 9)).toEqual([]);
});
