import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { frozenMould } from '#calc/line-up.ts';
import { linesOf } from '#calc/log.ts';
import { mergedEntries } from '#calc/merge.ts';
import { tableOf } from '#calc/table.ts';
import { afterStep, bothSteps, trayAfter } from '#calc/tray.ts';
import type { Entry, ShotId } from '#model/entry.ts';
import { FrozenMould, Mould, type MouldId } from '#model/mould.ts';
import { aFrozenMould, aSession, id, Pen, sessionId } from '../hands/log.ts';

// Mould 1 makes tails, four a shot; mould 2 takes one tail a cavity.

const tails = id<MouldId>('mould', 1);
const trayOf = (entries: readonly Entry[]) => trayAfter([tableOf(entries)], tails);
const good = ['good', 'good', 'good', 'good'] as const;

describe('a tray of parts', () => {
  test('rises with good pieces when they are opened and with nothing else', () => {
    const pen = new Pen().open();
    pen.fill(1, 1);
    expect(trayOf(pen.entries)).toBe(0);
    pen.log(1, ['good', 'short', 'not-checked', 'closed']);
    expect(trayOf(pen.entries)).toBe(1);
    pen.log(1, ['good', 'short', 'good', 'closed']);
    expect(trayOf(pen.entries)).toBe(2);
  });

  test('falls with bodies by the cavities that were filled; closed ones take none', () => {
    const pen = new Pen().open();
    pen.write({ kind: 'tray-counted', mouldId: tails, count: 20 });
    pen.fill(2, 1);
    expect(trayOf(pen.entries)).toBe(16);
    const shot = { mouldId: id<MouldId>('mould', 2), volumeMl: 42, setSec: 180, closed: [1, 3] };
    const shots = [{ ...shot, shotId: id<never>('shot', 2) }];
    pen.write({ kind: 'filled', shots, potIds: [], injectorId: null });
    expect(trayOf(pen.entries)).toBe(14);
  });

  test('comes back when a round is undone, and follows a shot that is put right', () => {
    const pen = new Pen().open();
    pen.fill(1, 1);
    const opened = pen.log(1, [...good]);
    const body = pen.fill(2, 2);
    expect(trayOf(pen.entries)).toBe(0);
    pen.write({ kind: 'taken-back', target: body.id });
    expect(trayOf(pen.entries)).toBe(4);
    const says = {
      kind: 'opened' as const,
      shots: [{ shotId: id<never>('shot', 1), results: ['good' as const, 'short' as const] }],
    };
    pen.write({ kind: 'put-right', target: opened.id, says, happenedAt: opened.at });
    expect(trayOf(pen.entries)).toBe(1);
  });

  test('holds what was counted, whatever was logged before, and never less than nothing', () => {
    const pen = new Pen().open();
    pen.fill(2, 1);
    expect(trayOf(pen.entries)).toBe(0);
    pen.write({ kind: 'tray-counted', mouldId: tails, count: 6 });
    expect(trayOf(pen.entries)).toBe(6);
    pen.fill(2, 2);
    pen.fill(2, 3);
    expect(trayOf(pen.entries)).toBe(0);
    pen.fill(1, 4);
    pen.log(4, [...good]);
    expect(trayOf(pen.entries)).toBe(4);
  });

  test('of pieces that lay in it when it was counted does not count them twice', () => {
    const pen = new Pen().open();
    pen.fill(1, 1);
    pen.log(1, ['not-checked', 'not-checked', 'not-checked', 'not-checked']);
    pen.write({ kind: 'tray-counted', mouldId: tails, count: 4 });
    pen.log(1, [...good]);
    expect(trayOf(pen.entries)).toBe(4);
  });

  test('serves several bodies, and a body takes from several trays', () => {
    const legs = id<MouldId>('mould', 4);
    const need = { mouldId: tails, each: 1, name: 'Tail', part: 'tail' as const };
    const pen = new Pen().open([
      aFrozenMould(2, { needs: [need, { mouldId: legs, each: 2, name: 'Legs', part: 'leg' }] }),
      aFrozenMould(5, { needs: [need] }),
    ]);
    pen.write({ kind: 'tray-counted', mouldId: tails, count: 30 });
    pen.write({ kind: 'tray-counted', mouldId: legs, count: 30 });
    pen.fill(2, 1);
    pen.fill(5, 2);
    expect(trayOf(pen.entries)).toBe(22);
    expect(trayAfter([tableOf(pen.entries)], legs)).toBe(22);
  });
});

describe('by any presses', () => {
  const sum = fc.array(
    fc.oneof(
      fc.integer({ min: -20, max: 20 }).map((change) => ({ least: 0, change })),
      fc.nat(40).map((least) => ({ least, change: null })),
    ),
    { maxLength: 12 },
  );

  test('many steps as one do what they do one by one, however they are gathered', () => {
    fc.assert(
      fc.property(sum, fc.nat(60), fc.nat(12), (steps, before, cut) => {
        const none = { least: 0, change: 0 };
        const gathered = (some: typeof steps) => some.reduce(bothSteps, none);
        const singly = steps.reduce(afterStep, before);
        expect(afterStep(before, gathered(steps))).toBe(singly);
        const halves = bothSteps(gathered(steps.slice(0, cut)), gathered(steps.slice(cut)));
        expect(afterStep(before, halves)).toBe(singly);
      }),
    );
  });

  test('a tray is as if what was taken back had never been, in whatever order entries come', () => {
    fc.assert(
      fc.property(aSession, (entries) => {
        const takers = entries.filter(({ said }) => said.kind === 'taken-back');
        const gone = new Set(linesOf(entries).flatMap((l) => (l.takenBackAt ? [l.id] : [])));
        const never = entries.filter((entry) => !takers.includes(entry) && !gone.has(entry.id));
        expect(trayOf(entries)).toBe(trayOf(never));
        expect(trayOf(entries.toReversed())).toBe(trayOf(entries));
        expect(trayOf(entries)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test('two copies of a session that were written apart come to one tray, whoever merges', () => {
    fc.assert(
      fc.property(aSession, fc.nat(40), (entries, cut) => {
        const [a, b] = [entries.slice(0, cut), entries.slice(Math.max(0, cut - 5))];
        expect(trayOf(mergedEntries(a, b))).toBe(trayOf(entries));
        expect(trayOf(mergedEntries(b, a))).toBe(trayOf(entries));
      }),
    );
  });

  test('is the good tails less the filled cavities of bodies, while there are always enough', () => {
    const round = fc.record({
      mould: fc.constantFrom(1, 2),
      closed: fc.subarray([1, 2, 3, 4]),
      results: fc.array(fc.constantFrom('good', 'short', 'not-checked'), {
        minLength: 4,
        maxLength: 4,
      }),
      isLogged: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(round, { maxLength: 20 }), (rounds) => {
        const pen = new Pen().open();
        pen.write({ kind: 'tray-counted', mouldId: tails, count: 100 });
        let count = 100;
        for (const [index, { mould, closed, results, isLogged }] of rounds.entries()) {
          const shotId = id<ShotId>('shot', index);
          const shot = { shotId, mouldId: id<MouldId>('mould', mould), closed, volumeMl: 42 };
          const shots = [{ ...shot, setSec: null }];
          pen.write({ kind: 'filled', shots, potIds: [], injectorId: null });
          if (isLogged) pen.write({ kind: 'opened', shots: [{ shotId, results }] });
          if (mould === 2) count -= 4 - closed.length;
          else if (isLogged) count += results.filter((result) => result === 'good').length;
        }
        expect(trayOf(pen.entries)).toBe(count);
      }),
    );
  });
});

describe('between sessions', () => {
  test('the tray carries over by the digests alone, in the order of the evenings', () => {
    fc.assert(
      fc.property(aSession, aSession, (first, second) => {
        const digests = [first, second].map((entries) => columnsOf(sessionId, entries));
        const tables = [first, second].map((entries) => tableOf(entries));
        expect(trayAfter(digests, tails)).toBe(trayAfter(tables, tails));
      }),
    );
  });

  test('a digest from before there were trays changes none', () => {
    const old = columnsOf(sessionId, new Pen().open().entries);
    delete old.trays;
    const pen = new Pen().open();
    pen.write({ kind: 'tray-counted', mouldId: tails, count: 9 });
    expect(trayAfter([old, columnsOf(sessionId, pen.entries), old], tails)).toBe(9);
  });
});

test('a body is frozen with the names of its parts; came apart is offered to it alone', () => {
  const {
    mouldId,
    defectOrder: _,
    ownOpensSec: __,
    warmAboveK: ___,
    needs,
    ...facts
  } = aFrozenMould(1);
  const head = { device: '0000000a', stamps: {}, createdAt: 1_764_000_000_000, deletedAt: null };
  const tail = Mould.parse({ id: mouldId, ...head, ...facts });
  const body = Mould.parse({
    ...tail,
    id: id('mould', 2),
    makes: null,
    needs: [
      { mouldId, each: 1 },
      { mouldId: id('mould', 9), each: 2 },
    ],
  });
  expect(needs).toBeUndefined();
  const frozen = frozenMould(body, [], [tail, body]);
  expect(frozen.needs).toEqual([{ mouldId, each: 1, name: 'Mould 1', part: 'tail' }]);
  expect(frozen.defectOrder).toContain('came-apart');
  expect(frozenMould(tail, [], [tail, body]).defectOrder).not.toContain('came-apart');
});

test('a mould from before there were parts is read as it is: injected, whole baits, no parts', () => {
  const old = aFrozenMould(4);
  for (const field of ['makes', 'needs', 'fill', 'verdict']) expect(old).not.toHaveProperty(field);
  expect(FrozenMould.parse(old)).toEqual(old);
  const pen = new Pen().open([old]);
  pen.fill(4, 1);
  pen.log(1, [...good]);
  const table = tableOf(pen.entries);
  expect(table.trays).toEqual([]);
  expect(table.seats[0]?.hand).toBeNull();
  expect(table.shots[0]?.tried).toEqual({});
});
