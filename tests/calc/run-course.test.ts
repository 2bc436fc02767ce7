import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { bestRun, ratedRuns } from '#calc/good-run.ts';
import { minutesOutside, runCourse } from '#calc/run-course.ts';
import { tableOf } from '#calc/table.ts';
import type { SessionId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import { aFrozenMould, evening, id, Pen, potMixed, sessionId } from '../hands/log.ts';

const minute = 60_000;
const mouldId = aFrozenMould(4).mouldId;

describe('minutes outside a window', () => {
  const window = { fromC: 155, toC: 165 };

  test('are cut where the straight line between two readings crosses it (similar triangles, by hand)', () => {
    const rising = [
      { min: 0, tempC: 150 },
      { min: 10, tempC: 170 },
    ];
    // 20 K in 10 min: 155 is reached at 2.5 min, 165 at 7.5 min.
    expect(minutesOutside(rising, window)).toEqual({ above: 2.5, below: 2.5 });
    const hot = [
      { min: 0, tempC: 170 },
      { min: 4, tempC: 175 },
      { min: 8, tempC: 160 },
    ];
    // Of the last 4 min the first 10 K of 15 K lie above.
    expect(minutesOutside(hot, window).above).toBeCloseTo(4 + (4 * 10) / 15, 12);
  });

  test('are none without two readings: nobody looked', () => {
    expect(minutesOutside([], window)).toEqual({ above: 0, below: 0 });
    expect(minutesOutside([{ min: 3, tempC: 200 }], window)).toEqual({ above: 0, below: 0 });
  });

  test('are never more than the readings span, and none in a window that holds them all', () => {
    const someReadings = fc
      .array(fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 100, max: 220 })), {
        maxLength: 12,
      })
      .map((all) => all.map(([min, tempC]) => ({ min, tempC })).sort((a, b) => a.min - b.min));
    fc.assert(
      fc.property(someReadings, (readings) => {
        const { above, below } = minutesOutside(readings, window);
        const span = (readings.at(-1)?.min ?? 0) - (readings[0]?.min ?? 0);
        expect(above + below).toBeLessThanOrEqual(span + 1e-9);
        expect(minutesOutside(readings, { fromC: 99, toC: 221 })).toEqual({ above: 0, below: 0 });
      }),
    );
  });
});

/** Rounds of one mould, the pot read once and heated again after the second. */
function anEvening(gave: readonly ('good' | 'short')[][]): Pen {
  const pen = new Pen().open([aFrozenMould(4)]);
  gave.forEach((results, index) => {
    const at = evening + (5 + 10 * index) * minute;
    pen.fill(4, index + 1, at);
    pen.log(index + 1, results, at + 4 * minute);
    if (index === 1) {
      pen.write({ kind: 'pot-heated', potId: id('pot', 1) }, at + 5 * minute);
      pen.write({ kind: 'pot-read', potId: id('pot', 1), tempC: 168 }, at + 6 * minute);
    }
  });
  return pen;
}

const good = ['good', 'good', 'good', 'good'] as const;
const oneShort = ['good', 'short', 'good', 'good'] as const;
const times = <T>(count: number, one: T): T[] => Array.from({ length: count }, () => one);

test('a run is told in minutes from its first fill, with its readings, reheats and the mould of each shot', () => {
  const pen = anEvening(times(3, [...good]));
  const run = runCourse(sessionId, pen.entries, mouldId);
  expect(run.pots).toEqual([{ name: 'Pot 1', readings: [{ min: 16, tempC: 168 }] }]);
  expect(run.reheatedAfter).toEqual([2]);
  expect(run.rounds).toBe(3);
  expect(run.mould.map(({ min }) => min)).toEqual([0, 10, 20]);
  // The mould starts as warm as the shop and every shot has warmed it.
  expect(run.mould[0]?.tempC).toBeCloseTo(tableOf(pen.entries).ambientC, 4);
  expect(run.mould[2]?.tempC).toBeGreaterThan(run.mould[1]?.tempC ?? Number.POSITIVE_INFINITY);
});

test('readings of two pots stay two lines: what lies between them was in neither', () => {
  const pen = anEvening([[...good]]);
  const side = potMixed(2, 1);
  pen.write(side, evening + 2 * minute);
  for (const [pot, tempC, min] of [
    [1, 150, 10],
    [2, 170, 11],
    [1, 151, 12],
  ] as const) {
    pen.write({ kind: 'pot-read', potId: id('pot', pot), tempC }, evening + min * minute);
  }
  const { pots } = runCourse(sessionId, pen.entries, mouldId);
  expect(pots.map(({ readings }) => readings.map(({ tempC }) => tempC))).toEqual([
    [150, 151],
    [170],
  ]);
  const hot = pots.map(({ readings }) => minutesOutside(readings, { fromC: 140, toC: 160 }).above);
  expect(hot).toEqual([0, 0]);
});

describe('the good run', () => {
  const asked = { mouldId, colourwayId: null };
  const rated = (name: number, gave: ('good' | 'short')[][]) =>
    ratedRuns([columnsOf(id<SessionId>('session', name), anEvening(gave).entries)], asked);

  test('is the one with the most to expect, not the one with the luckiest few', () => {
    const short = rated(2, times(5, [...good]));
    const long = rated(3, times(30, [...good]));
    const worse = rated(4, times(30, [...oneShort]));
    expect(short[0]).toMatchObject({ good: 20, checked: 20 });
    expect(bestRun([...worse, ...short, ...long])?.sessionId).toBe(id('session', 3));
  });

  test('needs twenty baits that were looked at', () => {
    expect(rated(2, times(4, [...good]))).toEqual([]);
    expect(bestRun([])).toBeNull();
  });

  test('of the same colour is taken before a better one of another', () => {
    const [better] = rated(2, times(30, [...good]));
    const [same] = rated(3, times(30, [...oneShort]));
    if (!better || !same) throw new Error('Both have enough baits.');
    expect(bestRun([better, { ...same, isSameColour: true }])?.sessionId).toBe(id('session', 3));
  });

  test('is of the colour that is asked for', () => {
    const colourwayId = id<ColourwayId>('colourway', 1);
    const columns = columnsOf(sessionId, anEvening(times(30, [...good])).entries);
    const poured = {
      ...columns,
      colourways: [{ colourwayId, name: 'Peat brown', swatches: [] }],
    };
    expect(ratedRuns([poured], { mouldId, colourwayId })[0]?.isSameColour).toBe(true);
    expect(ratedRuns([columns], { mouldId, colourwayId })[0]?.isSameColour).toBe(false);
  });
});
