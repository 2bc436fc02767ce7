import { describe, expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { heatMarks } from '#calc/heat-marks.ts';
import { coldFirst, pouredColours, sessionCounts, watchesCold } from '#calc/session-counts.ts';
import { tableOf } from '#calc/table.ts';
import { aFrozenMould, evening, id, Pen, potMixed, sessionId } from '../hands/log.ts';

const min = 60_000;
const columns = (pen: Pen) => columnsOf(sessionId, pen.entries);

describe('the counts of a session', () => {
  test('have a row a shot, without what was not checked or closed', () => {
    const pen = new Pen().open();
    pen.fill(1, 1);
    pen.log(1, ['good', 'short', 'not-checked', 'closed']);
    pen.fill(2, 2);
    pen.log(2, ['good', 'good', 'good', 'good']);
    pen.fill(2, 3);
    pen.log(3, ['not-checked', 'not-checked', 'not-checked', 'not-checked']);
    expect(sessionCounts([columns(pen)])).toEqual([{ x: [1, 4], n: [2, 4] }]);
  });

  test('leave out a session in which nothing was checked', () => {
    const pen = new Pen().open();
    pen.fill(1, 1);
    expect(sessionCounts([columns(pen)])).toEqual([]);
  });
});

describe('cold shots', () => {
  /** A block at shop temperature is cold by the definition of cold: less than 15 K above the shop. */
  test('the first shot into a mould at shop temperature is cold', () => {
    const pen = new Pen().open();
    pen.fill(1, 1);
    pen.fill(2, 2);
    expect(watchesCold([columns(pen)])).toBe(true);
    expect(coldFirst([columns(pen)])).toBe(1);
  });

  test('an uneven start has no one number', () => {
    const pen = new Pen().open();
    pen.fill(1, 1, evening + min);
    pen.fill(2, 2, evening + 2 * min);
    pen.fill(2, 3, evening + 200 * min);
    expect(coldFirst([columns(pen)])).toBeNull();
  });

  test('moulds that do not chill the plastic are not watched', () => {
    const pen = new Pen().open([aFrozenMould(1, { warmAboveK: null })]);
    pen.fill(1, 1);
    expect(watchesCold([columns(pen)])).toBe(false);
    expect(coldFirst([columns(pen)])).toBeNull();
  });
});

test('the colour of most shots comes first, one that was never poured not at all', () => {
  const pen = new Pen().open([aFrozenMould(1)]);
  pen.fill(1, 1);
  pen.write(potMixed(2));
  for (const shot of [2, 3]) {
    pen.write({
      kind: 'filled',
      shots: [
        {
          shotId: id('shot', shot),
          mouldId: id('mould', 1),
          volumeMl: 42,
          closed: [],
          setSec: 180,
        },
      ],
      potIds: [id('pot', 2)],
      injectorId: null,
    });
  }
  pen.write(potMixed(3));
  expect(pouredColours(columns(pen)).map(({ name }) => name)).toEqual(['Pot 2', 'Pot 1']);
});

describe('heats', () => {
  test('are counted from the mixing, with their times', () => {
    const pen = new Pen().open();
    pen.write({ kind: 'pot-heated', potId: id('pot', 1) }, evening + 63 * min);
    pen.write({ kind: 'pot-heated', potId: id('pot', 1) }, evening + 128 * min);
    expect(heatMarks(tableOf(pen.entries)).map(({ at, heat }) => [at, heat])).toEqual([
      [evening, 1],
      [evening + 63 * min, 2],
      [evening + 128 * min, 3],
    ]);
  });

  test('go on from the heats that remelt had before', () => {
    const pen = new Pen().open();
    const mix = potMixed(2);
    if (mix.kind !== 'pot-mixed') throw new Error('That is no mix.');
    const pots = mix.pots.map((pot) => ({ ...pot, meanHeats: 2, maxHeats: 3 }));
    pen.write({ ...mix, pots }, evening + 10 * min);
    const own = heatMarks(tableOf(pen.entries)).filter(({ pot }) => pot === 'Pot 2');
    expect(own.map(({ heat }) => heat)).toEqual([4]);
  });
});
