import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nextStepAt } from '#calc/next-step.ts';
import { opensAt, stageAt, tableOf, waitingShot } from '#calc/table.ts';
import { tonightOf, uncheckedShots } from '#calc/tonight.ts';
import { warmthAt } from '#calc/warmth.ts';
import { aFrozenMould, aSession, evening, id, Pen, potMixed } from '../hands/log.ts';

const min = 60_000;

describe('the table', () => {
  test('the fold of any prefix of entries is a valid table', () => {
    fc.assert(
      fc.property(aSession, fc.nat(60), (entries, cut) => {
        const table = tableOf(entries.slice(0, cut));
        const now = evening + 3 * 3_600_000;
        expect(table.seats.length).toBeLessThanOrEqual(3);
        for (const shot of table.shots) {
          expect(shot.results).toHaveLength(4);
          expect(shot.number).toBeGreaterThan(0);
        }
        for (const seat of table.seats) {
          expect(['empty', 'setting', 'open', 'skipped']).toContain(stageAt(seat, now));
          expect(Number.isFinite(warmthAt(table, seat, now).tempC)).toBe(true);
        }
        const count = tonightOf(table);
        for (const value of Object.values(count)) expect(value).toBeGreaterThanOrEqual(0);
        expect(nextStepAt(table, now).seats.length).toBeLessThanOrEqual(3);
      }),
    );
  });

  test('a mould walks from empty to setting to open and back to empty', () => {
    const pen = new Pen().open();
    const stage = (now: number) => stageAt(seatOf(pen, 1), now);
    expect(stage(evening)).toBe('empty');
    pen.fill(1, 1, evening + min);
    expect(stage(evening + min)).toBe('setting');
    expect(stage(evening + 4 * min - 1)).toBe('setting');
    expect(stage(evening + 4 * min)).toBe('open');
    pen.log(1, ['good', 'good', 'good', 'good'], evening + 5 * min);
    expect(stage(evening + 5 * min)).toBe('empty');
  });

  test('open now ends the clock, and no clock means open at once', () => {
    const pen = new Pen().open();
    pen.fill(1, 1, evening + min);
    pen.write({ kind: 'clock-stopped', shotId: id('shot', 1) }, evening + 2 * min);
    const shot = waitingShot(seatOf(pen, 1));
    expect(shot && opensAt(shot)).toBe(evening + 2 * min);
    pen.fill(2, 2, evening + 3 * min, null);
    expect(stageAt(seatOf(pen, 2), evening + 3 * min)).toBe('open');
  });

  test('open beats empty beats setting on the main key', () => {
    const pen = new Pen().open();
    expect(nextStepAt(tableOf(pen.entries), evening)).toMatchObject({ means: 'filled' });
    pen.fill(1, 1, evening + min);
    const mixed = nextStepAt(tableOf(pen.entries), evening + 2 * min);
    expect(mixed.means).toBe('filled');
    expect(mixed.seats.map((seat) => seat.mould.name)).toEqual(['Mould 2']);
    const open = nextStepAt(tableOf(pen.entries), evening + 5 * min);
    expect(open.means).toBe('good');
    expect(open.seats.map((seat) => seat.mould.name)).toEqual(['Mould 1']);
    pen.fill(2, 2, evening + 2 * min);
    expect(nextStepAt(tableOf(pen.entries), evening + 3 * min)).toMatchObject({ means: 'setting' });
  });

  test('a mould sits out until the round it sat out is logged', () => {
    const pen = new Pen().open();
    pen.write({ kind: 'skipped', mouldId: id('mould', 2), isSkipped: true });
    expect(seatOf(pen, 2).isSkipped).toBe(true);
    pen.fill(1, 1);
    expect(seatOf(pen, 2).isSkipped).toBe(true);
    pen.log(1, ['good', 'good', 'good', 'good']);
    expect(seatOf(pen, 2).isSkipped).toBe(false);
  });

  test('a shot that was checked later is not checked until somebody says what it gave', () => {
    const pen = new Pen().open();
    pen.fill(1, 1);
    pen.log(1, ['not-checked', 'not-checked', 'not-checked', 'closed']);
    expect(tonightOf(tableOf(pen.entries))).toEqual({ good: 0, bad: 0, notChecked: 3 });
    expect(uncheckedShots(tableOf(pen.entries))).toHaveLength(1);
    for (let round = 2; round < 6; round += 1) {
      pen.fill(1, round);
      pen.log(round, ['good', 'good', 'good', 'closed']);
    }
    expect(tableOf(pen.entries).shots[0]?.results).toContain('not-checked');
    pen.log(1, ['good', 'short', 'good', 'closed']);
    expect(uncheckedShots(tableOf(pen.entries))).toHaveLength(0);
    expect(tonightOf(tableOf(pen.entries)).bad).toBe(1);
  });

  test('a shot that nobody logged counts as not checked, with its closed cavities closed', () => {
    const pen = new Pen().open([aFrozenMould(1, { closed: [3] })]);
    pen.write({
      kind: 'filled',
      shots: [
        {
          shotId: id('shot', 1),
          mouldId: id('mould', 1),
          volumeMl: 30,
          closed: [3],
          setSec: 180,
        },
      ],
      potIds: [],
      injectorId: null,
    });
    expect(tableOf(pen.entries).shots[0]?.results).toEqual([
      'not-checked',
      'not-checked',
      'closed',
      'not-checked',
    ]);
  });

  test('a closed cavity stays closed when the mould leaves the table and comes back', () => {
    const pen = new Pen().open();
    pen.write({ kind: 'cavity-closed', mouldId: id('mould', 1), cavity: 2, isClosed: true });
    pen.write({ kind: 'lined-up', moulds: [aFrozenMould(2)], injector: null });
    pen.write({ kind: 'lined-up', moulds: [aFrozenMould(2), aFrozenMould(1)], injector: null });
    expect(seatOf(pen, 1).mould.closed).toEqual([2]);
    pen.write({ kind: 'cavity-closed', mouldId: id('mould', 1), cavity: 2, isClosed: false });
    expect(seatOf(pen, 1).mould.closed).toEqual([]);
  });

  test('a mix alone clears the table, a side of a laminate leaves the other side', () => {
    const pen = new Pen().open();
    pen.write(potMixed(2, 1));
    expect(tableOf(pen.entries).potsInUse.map((pot) => pot.name)).toEqual(['Pot 1', 'Pot 2']);
    pen.write(potMixed(3, 0));
    expect(tableOf(pen.entries).potsInUse.map((pot) => pot.name)).toEqual(['Pot 3']);
    pen.write({ kind: 'pot-emptied', potId: id('pot', 3) });
    expect(tableOf(pen.entries).potsInUse).toEqual([]);
  });

  test('undo names the newest line that stands and stops where the session began', () => {
    const pen = new Pen().open();
    expect(tableOf(pen.entries).undoes).toBeNull();
    const presses = Array.from({ length: 25 }, (_, index) => pen.fill(1, index + 1));
    for (const press of presses.toReversed()) {
      const undoes = tableOf(pen.entries).undoes;
      expect(undoes?.id).toBe(press.id);
      pen.write({ kind: 'taken-back', target: press.id });
    }
    expect(tableOf(pen.entries).undoes).toBeNull();
    expect(tableOf(pen.entries).shots).toHaveLength(0);
  });

  test('shot numbers keep the order of writing when the wall clock is turned back an hour', () => {
    const pen = new Pen().open();
    pen.fill(1, 1, evening + 10 * min);
    pen.log(1, ['good', 'good', 'good', 'good'], evening + 14 * min);
    pen.fill(1, 2, evening - 50 * min);
    const numbers = tableOf(pen.entries).shots.map((shot) => [shot.id, shot.number]);
    expect(numbers).toEqual([
      [id('shot', 1), 1],
      [id('shot', 2), 2],
    ]);
  });
});

function seatOf(pen: Pen, mould: number) {
  const seat = tableOf(pen.entries).seats.find((one) => one.mould.mouldId === id('mould', mould));
  if (!seat) throw new Error('not on the table');
  return seat;
}
