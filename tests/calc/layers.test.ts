import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { nextStepAt } from '#calc/next-step.ts';
import { potStateAt } from '#calc/pot-course.ts';
import { openSec } from '#calc/set-clock.ts';
import { isBetweenLayers, lastPouredAt, opensAt, stageAt, tableOf } from '#calc/table.ts';
import type { Said, SaidOf } from '#model/entry.ts';
import {
  aFrozenMould,
  aSession,
  evening,
  filled,
  id,
  Pen,
  potMixed,
  sessionId,
} from '../hands/log.ts';

// Mould 3 is poured by hand, open, layer on layer.

const min = 60_000;

function pot(number: number, slot: number): SaidOf<'pot-mixed'> {
  return { ...(potMixed(number, slot) as SaidOf<'pot-mixed'>), isAlone: false };
}

function layer(shot: number, of: number): Said {
  return {
    kind: 'layer-poured',
    potId: id('pot', of),
    shots: [{ shotId: id('shot', shot), volumeMl: 14 }],
  };
}

/** Three pots in slots 0, 1 and 2, and the hand mould alone on the table. */
function threePots(): Pen {
  const pen = new Pen().open([aFrozenMould(3)]);
  pen.write(pot(2, 1), evening);
  pen.write(pot(3, 2), evening);
  return pen;
}

const seatOf = (pen: Pen) => {
  const [seat] = tableOf(pen.entries).seats;
  if (!seat) throw new Error('not on the table');
  return seat;
};
const next = (pen: Pen) => seatOf(pen).hand?.pot?.name ?? null;

describe('a hand pour', () => {
  test('offers every pot once, in its order, and sets when the last layer is in', () => {
    const pen = threePots();
    expect(next(pen)).toBe('Pot 1');
    pen.fill(3, 1, evening + min);
    expect(next(pen)).toBe('Pot 2');
    expect(nextStepAt(tableOf(pen.entries), evening + 60 * min).means).toBe('layer');
    pen.write(layer(1, 2), evening + 2 * min);
    expect(next(pen)).toBe('Pot 3');
    // The set time is long over, but there is a layer to come.
    expect(stageAt(seatOf(pen), evening + 60 * min)).toBe('setting');
    pen.write(layer(1, 3), evening + 3 * min);
    expect(next(pen)).toBeNull();
    expect(isBetweenLayers(seatOf(pen))).toBe(false);
    const shot = tableOf(pen.entries).shots[0];
    expect(shot && opensAt(shot)).toBe(evening + 6 * min);
    expect(stageAt(seatOf(pen), evening + 6 * min - 1)).toBe('setting');
    expect(stageAt(seatOf(pen), evening + 6 * min)).toBe('open');
  });

  test('knows its layers by pot and time, and undo takes them off one by one', () => {
    const pen = threePots();
    pen.fill(3, 1, evening + min);
    const presses = [2, 3].map((of) => pen.write(layer(1, of), evening + of * min));
    const layers = () => tableOf(pen.entries).shots[0]?.layers;
    expect(layers()).toEqual([
      { potIds: [id('pot', 1)], at: evening + min },
      { potIds: [id('pot', 2)], at: evening + 2 * min },
      { potIds: [id('pot', 3)], at: evening + 3 * min },
    ]);
    for (const press of presses.toReversed()) {
      expect(tableOf(pen.entries).undoes?.id).toBe(press.id);
      pen.write({ kind: 'taken-back', target: press.id });
    }
    expect(layers()).toHaveLength(1);
    expect(next(pen)).toBe('Pot 2');
  });

  test('repeats the order of the shot before, also when it was out of the usual', () => {
    const pen = threePots();
    pen.fill(3, 1);
    pen.write(layer(1, 3));
    pen.write({ kind: 'pot-chosen', potIds: [id('pot', 1)] });
    expect(next(pen)).toBe('Pot 1');
    pen.write(layer(1, 1));
    pen.write({ kind: 'layers-ended', shotId: id('shot', 1) });
    expect(next(pen)).toBeNull();
    pen.log(1, ['good', 'good', 'good', 'good']);
    expect(seatOf(pen).hand?.planned).toBe(3);
    for (const [index, name] of ['Pot 1', 'Pot 3', 'Pot 1'].entries()) {
      expect(next(pen)).toBe(name);
      pen.write(index === 0 ? filled(3, 2) : layer(2, index === 1 ? 3 : 1));
    }
    expect(next(pen)).toBeNull();
  });

  test('takes the pot that stands where the old one stood when a colour is mixed anew', () => {
    const pen = threePots();
    pen.fill(3, 1);
    pen.write(layer(1, 2));
    pen.write({ kind: 'layers-ended', shotId: id('shot', 1) });
    pen.log(1, ['good', 'good', 'good', 'good']);
    pen.write(pot(4, 1));
    pen.write(filled(3, 2));
    expect(next(pen)).toBe('Pot 4');
  });

  test('does not wait for a pot that was mixed when its layers were in', () => {
    const pen = new Pen().open([aFrozenMould(3)]);
    pen.fill(3, 1, evening + min);
    expect(next(pen)).toBeNull();
    pen.write(pot(2, 2), evening + 5 * min);
    expect(stageAt(seatOf(pen), evening + 5 * min)).toBe('open');
  });

  test('has at most six layers', () => {
    const pen = threePots();
    pen.fill(3, 1);
    for (let above = 2; above <= 6; above += 1) {
      pen.write({ kind: 'pot-chosen', potIds: [id('pot', 1)] });
      expect(next(pen)).toBe('Pot 1');
      pen.write(layer(1, 1));
    }
    pen.write({ kind: 'pot-chosen', potIds: [id('pot', 1)] });
    expect(next(pen)).toBeNull();
  });

  test('draws every layer from its own pot, and nothing for a fill that was taken back', () => {
    const pen = threePots();
    const fill = pen.fill(3, 1, evening + min);
    pen.write(layer(1, 2), evening + 2 * min);
    const left = (of: number) => {
      const found = tableOf(pen.entries).pots.find((one) => one.id === id('pot', of));
      return found && potStateAt(found, 165, evening + 30 * min).volumeMl;
    };
    expect(left(1)).toBeCloseTo(473.176473 - 42);
    expect(left(2)).toBeCloseTo(473.176473 - 14);
    expect(tableOf(pen.entries).shots[0]?.volumeMl).toBe(56);
    pen.write({ kind: 'taken-back', target: fill.id });
    expect(left(1)).toBeCloseTo(473.176473);
    expect(left(2)).toBeCloseTo(473.176473);
  });

  test('is timed from its last layer; an injected shot from its fill', () => {
    const pen = threePots();
    pen.fill(3, 1, evening + min);
    pen.write(layer(1, 2), evening + 3 * min);
    pen.write({ kind: 'layers-ended', shotId: id('shot', 1) }, evening + 3 * min);
    pen.write({ kind: 'clock-stopped', shotId: id('shot', 1) }, evening + 5 * min);
    const shot = tableOf(pen.entries).shots[0];
    expect(shot && openSec(shot)).toBe(120);
    const plain = new Pen().open();
    plain.fill(1, 1, evening + min);
    plain.write({ kind: 'clock-stopped', shotId: id('shot', 1) }, evening + 3 * min);
    const injected = tableOf(plain.entries).shots[0];
    expect(injected && openSec(injected)).toBe(120);
  });
});

describe('pots that stand side by side', () => {
  const drawn = (pen: Pen) => tableOf(pen.entries).potsDrawn.map(({ name }) => name);

  test('are not all drawn from by an injected round: both sides are, a third is not', () => {
    const pen = new Pen().open();
    pen.write(pot(2, 1));
    pen.write(pot(3, 2));
    expect(drawn(pen)).toEqual(['Pot 1', 'Pot 2']);
    pen.write({ kind: 'pot-chosen', potIds: [id('pot', 3)] });
    expect(drawn(pen)).toEqual(['Pot 3']);
    pen.write({ kind: 'pot-emptied', potId: id('pot', 3) });
    expect(drawn(pen)).toEqual(['Pot 1', 'Pot 2']);
  });

  test('lose the choice when a side is mixed anew', () => {
    const pen = new Pen().open();
    pen.write(pot(3, 2));
    pen.write({ kind: 'pot-chosen', potIds: [id('pot', 3)] });
    pen.write(pot(4, 0));
    expect(drawn(pen)).toEqual(['Pot 4']);
  });
});

test('by any presses, layers come in order, stand on a fill, and a digest is rebuilt equal', () => {
  fc.assert(
    fc.property(aSession, (entries) => {
      const table = tableOf(entries);
      for (const shot of table.shots) {
        expect(shot.layers.length).toBeGreaterThan(0);
        expect(shot.layers[0]?.at).toBe(shot.filledAt);
        expect(lastPouredAt(shot)).toBe(shot.layers.at(-1)?.at);
      }
      for (const seat of table.seats) {
        if (seat.mould.fill !== 'by-hand') expect(seat.hand).toBeNull();
        else expect(seat.hand?.planned).toBeLessThanOrEqual(6);
        if (isBetweenLayers(seat)) expect(stageAt(seat, evening + 9e9)).toBe('setting');
      }
      expect(columnsOf(sessionId, entries.toReversed())).toEqual(columnsOf(sessionId, entries));
    }),
  );
});
