import { describe, expect, test } from 'vitest';
import { isFooting, isToldLater, newestFirst } from '#calc/entry-list.ts';
import { linesOf } from '#calc/log.ts';
import { tableOf } from '#calc/table.ts';
import { aFrozenMould, evening, id, Pen } from '../hands/log.ts';

const min = 60_000;

function told(pen: Pen) {
  const table = tableOf(pen.entries);
  return linesOf(pen.entries).flatMap((line) => (isToldLater(line, table) ? line.said.kind : []));
}

describe('the list of lines', () => {
  test('has the newest happening first, whenever it was written', () => {
    const pen = new Pen().open();
    pen.write({ kind: 'noted', text: 'ten past' }, evening + 10 * min);
    const late = pen.write({ kind: 'noted', text: 'five past' }, evening + 20 * min);
    pen.write({
      kind: 'put-right',
      target: late.id,
      says: { kind: 'noted', text: 'five past' },
      happenedAt: evening + 5 * min,
    });
    const notes = newestFirst(linesOf(pen.entries)).flatMap(({ said }) =>
      said.kind === 'noted' ? said.text : [],
    );
    expect(notes).toEqual(['ten past', 'five past']);
  });

  test('of one instant the last written comes first', () => {
    const kinds = newestFirst(linesOf(new Pen().open().entries)).map(({ said }) => said.kind);
    expect(kinds).toEqual(['pot-mixed', 'lined-up', 'session-begun']);
  });
});

describe('a fill', () => {
  test('is told by its outcome once it is logged', () => {
    const pen = new Pen().open([aFrozenMould(1)]);
    pen.fill(1, 1);
    expect(told(pen)).toEqual([]);
    pen.write({ kind: 'clock-stopped', shotId: id('shot', 1) });
    pen.log(1, ['good', 'good', 'good', 'good']);
    expect(told(pen)).toEqual(['filled', 'clock-stopped']);
  });

  test('stands for itself again when its outcome is taken back', () => {
    const pen = new Pen().open([aFrozenMould(1)]);
    pen.fill(1, 1);
    const outcome = pen.log(1, ['good', 'good', 'good', 'good']);
    pen.write({ kind: 'taken-back', target: outcome.id });
    expect(told(pen)).toEqual([]);
  });

  test('that was itself taken back is always shown', () => {
    const pen = new Pen().open([aFrozenMould(1)]);
    const fill = pen.fill(1, 1);
    pen.log(1, ['good', 'good', 'good', 'good']);
    pen.write({ kind: 'taken-back', target: fill.id });
    expect(told(pen)).toEqual([]);
  });
});

test('the session stands on what it opened with and on its end, and on nothing else', () => {
  const pen = new Pen().open([aFrozenMould(1)]);
  pen.write({ kind: 'lined-up', moulds: [aFrozenMould(2)], injector: null });
  pen.fill(1, 1);
  pen.write({ kind: 'session-ended' });
  const lines = linesOf(pen.entries);
  expect(lines.filter((line) => isFooting(line, lines)).map(({ said }) => said.kind)).toEqual([
    'session-begun',
    'lined-up',
    'pot-mixed',
    'session-ended',
  ]);
  expect(lines.filter((line) => !isFooting(line, lines)).map(({ said }) => said.kind)).toEqual([
    'lined-up',
    'filled',
  ]);
});
