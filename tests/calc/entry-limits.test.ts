import { expect, test } from 'vitest';
import { entryLimits } from '#calc/entry-limits.ts';
import { linesOf } from '#calc/log.ts';
import { tableOf } from '#calc/table.ts';
import type { Kind } from '#model/entry.ts';
import { aFrozenMould, evening, id, Pen } from '../hands/log.ts';

const min = 60_000;
const now = evening + 600 * min;

/** Filled at 5, clock ended at 7, opened at 9, reheated at 12, ended at 30 minutes. */
function anEvening(): Pen {
  const pen = new Pen().open([aFrozenMould(1)]);
  pen.fill(1, 1, evening + 5 * min);
  pen.write({ kind: 'clock-stopped', shotId: id('shot', 1) }, evening + 7 * min);
  pen.log(1, ['good', 'good', 'good', 'good'], evening + 9 * min);
  pen.write({ kind: 'pot-heated', potId: id('pot', 1) }, evening + 12 * min);
  pen.write({ kind: 'session-ended' }, evening + 30 * min);
  return pen;
}

test.each<[Kind, from: number | null, fromBy: string, to: number | null, toBy: string]>([
  ['session-begun', null, 'none', 5, 'first-entry'],
  ['filled', 0, 'begun', 7, 'opened'],
  ['clock-stopped', 5, 'filled', 9, 'opened'],
  ['opened', 5, 'filled', null, 'now'],
  ['pot-heated', 0, 'mixed', null, 'now'],
  ['session-ended', 5, 'last-filled', null, 'now'],
])('%s lies between its neighbours', (kind, from, fromBy, to, toBy) => {
  const { entries } = anEvening();
  const lines = linesOf(entries);
  const line = lines.find(({ said }) => said.kind === kind);
  if (!line) throw new Error(`No ${kind}.`);
  expect(entryLimits(tableOf(entries), lines, line, now)).toEqual({
    from: { at: from === null ? 0 : evening + from * min, by: fromBy },
    to: { at: to === null ? now : evening + to * min, by: toBy },
  });
});

test('what was taken back sets no limit', () => {
  const pen = new Pen().open([aFrozenMould(1)]);
  const fill = pen.fill(1, 1, evening + 5 * min);
  const outcome = pen.log(1, ['good', 'good', 'good', 'good'], evening + 9 * min);
  pen.write({ kind: 'taken-back', target: outcome.id });
  const lines = linesOf(pen.entries);
  const line = lines.find((one) => one.id === fill.id);
  if (!line) throw new Error('The fill is gone.');
  expect(entryLimits(tableOf(pen.entries), lines, line, now).to).toEqual({ at: now, by: 'now' });
});
