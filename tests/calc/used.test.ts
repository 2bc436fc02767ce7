import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { standingOf } from '#calc/log.ts';
import { mergedEntries } from '#calc/merge.ts';
import { unpackedUses, usesOf } from '#calc/used.ts';
import type { Said } from '#model/entry.ts';
import { aSession, dyedPot, evening, id, Pen, sessionId } from '../hands/log.ts';

const potMl = 473.176473;
const usedIn = (pen: Pen) =>
  usesOf(standingOf(pen.entries)).map(({ materialId, amount, unit }) => [
    materialId === id('material', 1) ? 'plastisol' : 'black',
    amount,
    unit,
  ]);

describe('what a session took off the shelf', () => {
  test('is the plastisol and the doses of every mix, as they were frozen', () => {
    const pen = new Pen().open();
    pen.write(dyedPot(2, 36));
    expect(usedIn(pen)).toEqual([
      ['plastisol', potMl, 'mL'],
      ['black', 36, 'drop'],
    ]);
  });

  test('is nothing for a pot without a mix', () => {
    expect(usedIn(new Pen().open())).toEqual([]);
  });

  test('is no plastisol for what was hot before, and half for half', () => {
    const pen = new Pen().open();
    pen.write(dyedPot(2, 36, 2));
    expect(usedIn(pen)).toEqual([['black', 36, 'drop']]);
    const topUp = (meanHeats: number, maxHeats: number): Said => ({
      kind: 'pot-topped-up',
      potId: id('pot', 2),
      volumeMl: 100,
      meanHeats,
      maxHeats,
    });
    for (const said of [topUp(0, 0), topUp(3, 3), topUp(1, 2)]) pen.write(said);
    expect(usedIn(pen).slice(1)).toEqual([
      ['plastisol', 100, 'mL'],
      ['plastisol', 50, 'mL'],
    ]);
  });

  test('is the doses of a top-up too, where they were told', () => {
    const pen = new Pen().open();
    const said = dyedPot(2, 36);
    pen.write(said);
    const mix = said.kind === 'pot-mixed' ? (said.pots[0]?.mix ?? null) : null;
    if (!mix) throw new Error('That pot has no mix.');
    pen.write({
      kind: 'pot-topped-up',
      potId: id('pot', 2),
      volumeMl: 100,
      meanHeats: 0,
      maxHeats: 0,
      mix: { ...mix, doses: mix.doses.map((dose) => ({ ...dose, amount: 8 })) },
    });
    expect(usedIn(pen).slice(2)).toEqual([
      ['plastisol', 100, 'mL'],
      ['black', 8, 'drop'],
    ]);
  });

  test('is gone when the mix is taken back, and other when it is put right', () => {
    const pen = new Pen().open();
    const mixed = pen.write(dyedPot(2, 36));
    const right = { target: mixed.id, says: dyedPot(2, 24), happenedAt: evening };
    pen.write({ kind: 'put-right', ...right });
    expect(usedIn(pen).map(([, amount]) => amount)).toEqual([potMl, 24]);
    const taken = pen.write({ kind: 'taken-back', target: mixed.id });
    expect(usedIn(pen)).toEqual([]);
    pen.write({ kind: 'taken-back', target: taken.id });
    expect(usedIn(pen).map(([, amount]) => amount)).toEqual([potMl, 24]);
  });

  test('is in the digest of the session, to the millisecond', () => {
    fc.assert(
      fc.property(aSession, (entries) => {
        const uses = usesOf(standingOf(entries)).map((use) => ({ ...use, sessionId }));
        expect(unpackedUses(columnsOf(sessionId, entries))).toEqual(uses);
      }),
    );
  });

  test('is the same after a merge of two copies, whichever way and however often', () => {
    fc.assert(
      fc.property(aSession, fc.integer({ min: 3, max: 40 }), (entries, cut) => {
        const [a, b] = [entries.slice(0, cut), entries.slice(3)];
        const used = (...copies: (typeof entries)[]) =>
          columnsOf(sessionId, copies.reduce(mergedEntries)).used;
        expect(used(b, [...entries.slice(0, 3), ...a])).toEqual(used(entries));
        expect(used(entries, a, b, a)).toEqual(used(entries));
      }),
    );
  });

  test('is nothing in a digest that was packed before uses were kept', () => {
    const { used: _, ...old } = columnsOf(sessionId, new Pen().open().entries);
    expect(unpackedUses(old)).toEqual([]);
  });
});
