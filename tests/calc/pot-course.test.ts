import { describe, expect, test } from 'vitest';
import { heatOfShot } from '#calc/columns.ts';
import { heatNumberAt, potStateAt, pourTempC } from '#calc/pot-course.ts';
import { tableOf } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import { evening, id, Pen } from '../hands/log.ts';

const min = 60_000;
const potId = id<never>('pot', 1);

describe('the pot', () => {
  test('a fresh mix is in its first heat, and each reheating counts one more', () => {
    const pen = new Pen().open();
    pen.write({ kind: 'pot-heated', potId }, evening + 30 * min);
    pen.write({ kind: 'pot-heated', potId }, evening + 60 * min);
    const pot = onlyPot(pen);
    expect(heatNumberAt(pot, evening)).toBe(1);
    expect(heatNumberAt(pot, evening + 31 * min)).toBe(2);
    expect(heatNumberAt(pot, evening + 61 * min)).toBe(3);
  });

  test('a shot knows the heat it was poured in, also when the reheating is logged late', () => {
    const pen = new Pen().open();
    pen.fill(1, 1, evening + 10 * min);
    pen.fill(1, 2, evening + 40 * min);
    const heat = pen.write({ kind: 'pot-heated', potId }, evening + 50 * min);
    const heats = () => {
      const table = tableOf(pen.entries);
      return table.shots.map((shot) => heatOfShot(table, shot));
    };
    expect(heats()).toEqual([1, 1]);
    pen.write({
      kind: 'put-right',
      target: heat.id,
      says: { kind: 'pot-heated', potId },
      happenedAt: evening + 30 * min,
    });
    expect(heats()).toEqual([1, 2]);
  });

  test('minutes hot run from each heat to the last shot or reading of that heat', () => {
    const pen = new Pen().open();
    pen.fill(1, 1, evening + 10 * min);
    pen.write({ kind: 'pot-heated', potId }, evening + 60 * min);
    pen.fill(1, 2, evening + 65 * min);
    const state = potStateAt(onlyPot(pen), 165, evening + 90 * min);
    expect(state.hotMin).toBeCloseTo(15, 6);
    // At the reference temperature an equivalent minute is a minute.
    expect(state.doseMin).toBeCloseTo(15, 6);
  });

  test('ten minutes at 180 °C age the pot like 39 at 165 (A33: rate 3.90775, Ea from Krongauz)', () => {
    const pen = new Pen().open();
    pen.write({ kind: 'pot-read', potId, tempC: 180 }, evening);
    pen.fill(1, 1, evening + 10 * min);
    expect(potStateAt(onlyPot(pen), 165, evening + 10 * min).doseMin).toBeCloseTo(39.0775, 3);
  });

  test('a top-up with remelt mixes heats by mass and keeps the greatest', () => {
    const pen = new Pen().open();
    pen.write(
      {
        kind: 'pot-topped-up',
        potId,
        volumeMl: 473.176473,
        meanHeats: 3,
        maxHeats: 4,
      },
      evening + min,
    );
    const state = potStateAt(onlyPot(pen), 165, evening + min);
    // Half of it in its first heat, half of it after three on average.
    expect(state.meanHeats).toBeCloseTo(2, 9);
    expect(state.maxHeats).toBe(4);
    expect(state.volumeMl).toBeCloseTo(2 * 473.176473, 6);
  });

  test('both pots of a laminate are drawn for every shot, half each', () => {
    const pen = new Pen().open();
    const said = pen.fill(1, 1).said;
    if (said.kind === 'filled') (said.potIds as string[]).push(id('pot', 2));
    pen.write({
      kind: 'pot-mixed',
      colourwayId: null,
      name: 'B',
      isAlone: false,
      pots: [{ ...aPot(), potId: id('pot', 2), slot: 1 }],
    });
    const table = tableOf(pen.entries);
    const left = table.pots.map((pot) => potStateAt(pot, 165, evening + 99 * min).volumeMl);
    expect(left[0]).toBeCloseTo(473.176473 - 21, 6);
    expect(left[1]).toBeCloseTo(473.176473, 6);
  });

  test('the pour temperature is the last reading, or what the session takes for it', () => {
    const pen = new Pen().open();
    const temp = (at: number) => {
      const table = tableOf(pen.entries);
      return pourTempC(table, table.potsInUse, at);
    };
    expect(temp(evening)).toBe(165);
    pen.write({ kind: 'pot-read', potId, tempC: 172 }, evening + 5 * min);
    expect(temp(evening + 4 * min)).toBe(165);
    expect(temp(evening + 5 * min)).toBe(172);
  });
});

function onlyPot(pen: Pen): Pot {
  return tableOf(pen.entries).pots[0] as Pot;
}

function aPot() {
  return { name: 'B', swatch: null, volumeMl: 473.176473, meanHeats: 0, maxHeats: 0 };
}
