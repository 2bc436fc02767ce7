import { describe, expect, test } from 'vitest';
import { tableOf } from '#calc/table.ts';
import { isColdShot, tempBeforeC, wallTempC, warmthAt } from '#calc/warmth.ts';
import type { FrozenMould } from '#model/mould.ts';
import { aFrozenMould, evening, id, Pen } from '../hands/log.ts';

/**
 * The default case of methods-heat section 3 (recomputed with scipy there): 2.5 kg of aluminium,
 * 90 mL a shot, everything the plastic brings is taken up, a shot every 240 s.
 */
const block: Partial<FrozenMould> = {
  massG: 2_500,
  heat: { tauSec: 2_800, uptake: 1 },
};

function poured(shots: number, mould: Partial<FrozenMould>, gapSec = 240) {
  const pen = new Pen().open([aFrozenMould(1, mould)]);
  for (let shot = 1; shot <= shots; shot += 1) {
    const said = pen.fill(1, shot, evening + (shot - 1) * gapSec * 1_000).said;
    for (const filled of (said as { shots: { volumeMl: number }[] }).shots) filled.volumeMl = 90;
  }
  return pen;
}

describe('how warm a mould is', () => {
  test('the temperatures before shots 1 to 6 are those of the worked example A19', () => {
    const table = tableOf(poured(6, block).entries);
    const seat = table.seats[0] as (typeof table.seats)[number];
    const temps = table.shots.map((shot) => tempBeforeC(table, seat, shot));
    const expected = [20, 29.3932, 37.4063, 44.242, 50.0731, 55.0476];
    for (const [index, temp] of temps.entries()) {
      expect(Math.abs(temp - (expected[index] ?? 0))).toBeLessThan(0.001);
    }
  });

  test('the first two shots of the default case are cold and the third is not (A25, common practice)', () => {
    const table = tableOf(poured(4, block).entries);
    const seat = table.seats[0] as (typeof table.seats)[number];
    expect(table.shots.map((shot) => isColdShot(table, seat, shot))).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });

  test('silicone has no cold flag', () => {
    const pen = poured(1, { ...block, material: 'silicone', warmAboveK: null });
    const table = tableOf(pen.entries);
    const seat = table.seats[0] as (typeof table.seats)[number];
    expect(table.shots.map((shot) => isColdShot(table, seat, shot))).toEqual([null]);
    expect(warmthAt(table, seat, evening).isFlagged).toBe(false);
  });

  test('the word goes from cold to warming to warm, and to cooling and cold again in a long break', () => {
    const table = tableOf(logged(poured(12, block), 12).entries);
    const seat = table.seats[0] as (typeof table.seats)[number];
    const wordAt = (sec: number) => warmthAt(table, seat, evening + sec * 1_000).word;
    expect(wordAt(-1)).toBe('cold');
    expect(wordAt(240 + 1)).toBe('warming');
    expect(wordAt(6 * 240)).toBe('warm');
    expect(wordAt(11 * 240 + 600)).toBe('cooling');
    expect(wordAt(11 * 240 + 3 * 3_600)).toBe('cold');
  });

  test('one thermometer reading moves the prediction towards it, from the first one on', () => {
    const before = warmNow(poured(5, { massG: 2_500 }));
    const pen = poured(5, { massG: 2_500 });
    const hot = before + 12;
    pen.write({ kind: 'mould-read', mouldId: id('mould', 1), tempC: hot }, evening + 5 * 240_000);
    const after = warmNow(pen);
    expect(after).toBeGreaterThan(before + 3);
    expect(after).toBeLessThanOrEqual(hot + 1);
  });

  test('the wall that a shot sets against is warmer in a warmed mould', () => {
    const cold = tableOf(poured(1, block).entries);
    const warm = tableOf(poured(8, block).entries);
    const wall = (table: typeof cold) => {
      const seat = table.seats[0] as (typeof table.seats)[number];
      return wallTempC(table, seat, { filledAt: evening + 9 * 240_000, volumeMl: 90 });
    };
    expect(wall(warm)).toBeGreaterThan(wall(cold) + 20);
  });
});

function warmNow(pen: Pen): number {
  const table = tableOf(pen.entries);
  const seat = table.seats[0] as (typeof table.seats)[number];
  return warmthAt(table, seat, evening + 5 * 240_000).tempC;
}

function logged(pen: Pen, shots: number): Pen {
  for (let shot = 1; shot <= shots; shot += 1) {
    pen.log(shot, ['good', 'good', 'good', 'good'], evening + shot * 240_000 - 20_000);
  }
  return pen;
}
