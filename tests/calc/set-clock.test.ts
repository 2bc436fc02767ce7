import { describe, expect, test } from 'vitest';
import { setTimeSec } from '#calc/conduction.ts';
import { setClockAt } from '#calc/set-clock.ts';
import { tableOf } from '#calc/table.ts';
import { wallTempC } from '#calc/warmth.ts';
import type { FrozenMould } from '#model/mould.ts';
import { aFrozenMould, evening, id, Pen } from '../hands/log.ts';

const section = { shape: 'round', thicknessMm: 10 } as const;

describe('the clock of the next shot', () => {
  test('it is 3:00 while nothing is known (common practice, no source)', () => {
    expect(clock({})).toMatchObject({ setSec: 180, from: 'first' });
  });

  test('with a known section it is worked out for the predicted wall', () => {
    const pen = new Pen().open([aFrozenMould(1, { section })]);
    const table = tableOf(pen.entries);
    const seat = table.seats[0] as (typeof table.seats)[number];
    const wallC = wallTempC(table, seat, { filledAt: evening, volumeMl: 42 });
    const exact = setTimeSec({ ...section, pourC: 165, wallC, openC: 60 });
    const found = setClockAt(table, seat, 42, evening);
    expect(found.from).toBe('predicted');
    expect(Math.abs(Number(found.setSec) - Number(exact))).toBeLessThanOrEqual(2.5);
    // Table of methods-heat section 2: 10 mm takes 95 s in a 20 °C mould and 107 s in one of 30 °C.
    expect(found.setSec).toBeGreaterThanOrEqual(95);
    expect(found.setSec).toBeLessThanOrEqual(110);
  });

  test('it grows as the mould warms', () => {
    const pen = new Pen().open([aFrozenMould(1, { section })]);
    const cold = Number(clockOf(pen).setSec);
    for (let shot = 1; shot <= 6; shot += 1) pen.fill(1, shot, evening + shot * 150_000);
    expect(Number(clockOf(pen, evening + 7 * 150_000).setSec)).toBeGreaterThan(cold + 10);
  });

  test('a wall hotter than a bait can be opened at says so instead of a wrong time', () => {
    expect(clock({ section, heat: { tauSec: 50_000, uptake: 1 }, massG: 300 }, 20)).toMatchObject({
      from: 'too-warm',
    });
  });

  test('opens within a second or two make the shortest clock, not one of no time', () => {
    for (const openSec of [0.1, 1, 2.4]) {
      const ownOpensSec = Array.from({ length: 5 }, () => openSec);
      expect(clock({ ownOpensSec })).toMatchObject({ setSec: 5, from: 'own-opens' });
    }
  });

  test('five own opens of all-good shots replace it by their median', () => {
    const pen = new Pen().open();
    const opens = [150, 160, 200, 170, 900];
    let at = evening;
    for (const [index, sec] of opens.entries()) {
      pen.fill(1, index + 1, at);
      pen.log(index + 1, ['good', 'good', 'good', 'good'], at + sec * 1_000);
      at += 1_000_000;
      if (index < 4) expect(clockOf(pen).from).toBe('first');
    }
    expect(clockOf(pen)).toMatchObject({ setSec: 170, from: 'own-opens', opens: 5 });
  });

  test('a shot with a bad cavity teaches no set time', () => {
    const pen = new Pen().open();
    for (let shot = 1; shot <= 6; shot += 1) {
      pen.fill(1, shot, evening + shot * 400_000);
      pen.log(shot, ['good', 'good', 'dent', 'good'], evening + shot * 400_000 + 100_000);
    }
    expect(clockOf(pen).from).toBe('first');
  });

  test("the person's own choice beats everything, and no clock is a choice", () => {
    const pen = new Pen().open([
      aFrozenMould(1, { section, ownOpensSec: [100, 100, 100, 100, 100] }),
    ]);
    const mouldId = id<never>('mould', 1);
    expect(clockOf(pen).from).toBe('own-opens');
    pen.write({ kind: 'set-time-chosen', mouldId, setSec: 240, hasNoClock: false });
    expect(clockOf(pen)).toMatchObject({ setSec: 240, from: 'chosen' });
    pen.write({ kind: 'set-time-chosen', mouldId, setSec: null, hasNoClock: true });
    expect(clockOf(pen)).toMatchObject({ setSec: null, from: 'no-clock' });
  });
});

function clock(mould: Partial<FrozenMould>, shots = 0) {
  const pen = new Pen().open([aFrozenMould(1, mould)]);
  for (let shot = 1; shot <= shots; shot += 1) pen.fill(1, shot, evening + shot * 30_000);
  return clockOf(pen, evening + (shots + 1) * 30_000);
}

function clockOf(pen: Pen, at = evening) {
  const table = tableOf(pen.entries);
  return setClockAt(table, table.seats[0] as (typeof table.seats)[number], 42, at);
}
