import fc from 'fast-check';
import { expect, test } from 'vitest';
import { columnsOf, resultCodes } from '#calc/columns.ts';
import { tableOf } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';
import { totalOf, yieldsByMould } from '#calc/yields.ts';
import { figure } from '../hands/figure.ts';
import { aSession, Pen, sessionId } from '../hands/log.ts';

const runs = 2_000;

test('the digest holds every shot and every cavity of the table, and counts the same', () => {
  fc.assert(
    fc.property(aSession, (entries) => {
      const table = tableOf(entries);
      const columns = columnsOf(sessionId, entries);
      const results = table.shots.flatMap((shot) => shot.results);
      expect([...columns.cells].map((code) => resultCodes[code])).toEqual(results);
      expect(columns.mould).toHaveLength(table.shots.length);
      const total = totalOf(yieldsByMould([columns]));
      const truth = countOf(results);
      expect(total.good).toBe(truth.good);
      expect(total.checked).toBe(truth.good + truth.bad);
      expect(total.notChecked).toBe(truth.notChecked);
      expect(total.shots).toBe(table.shots.length);
    }),
    { numRuns: runs },
  );
});

test('a digest is rebuilt equal from the same entries in any order', () => {
  fc.assert(
    fc.property(aSession, (entries) => {
      expect(columnsOf(sessionId, entries.toReversed())).toEqual(columnsOf(sessionId, entries));
    }),
    { numRuns: runs },
  );
  figure({
    drill: 'Sums kept beside the log',
    required: `${runs} histories with corrections and late lines: equal to a rebuild`,
    reached: `${runs} of ${runs} equal`,
    isMet: true,
  });
});

test('warm and cold shots together are all shots', () => {
  fc.assert(
    fc.property(aSession, (entries) => {
      const columns = [columnsOf(sessionId, entries)];
      const [all, warm, cold] = (['all', 'warm', 'cold'] as const).map((which) =>
        totalOf(yieldsByMould(columns, which)),
      );
      expect((warm?.checked ?? 0) + (cold?.checked ?? 0)).toBe(all?.checked);
      expect(cold?.good).toBe(all?.coldGood);
    }),
  );
});

test('bad cavities and defects are counted where they were', () => {
  const pen = new Pen().open();
  pen.fill(1, 1);
  pen.log(1, ['good', 'short', 'good', 'dent']);
  pen.fill(1, 2);
  pen.log(2, ['not-checked', 'short', 'good', 'closed']);
  const own = yieldsByMould([columnsOf(sessionId, pen.entries)])[0];
  expect(own?.byCavity).toEqual([
    { checked: 1, bad: 0 },
    { checked: 2, bad: 2 },
    { checked: 2, bad: 0 },
    { checked: 1, bad: 1 },
  ]);
  expect([...(own?.byDefect ?? [])]).toEqual([
    ['short', 2],
    ['dent', 1],
  ]);
  expect(own?.tally).toMatchObject({ shots: 2, good: 3, checked: 6, notChecked: 1 });
});
