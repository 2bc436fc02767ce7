import { describe, expect, test } from 'vitest';
import { standingOf } from '#calc/log.ts';
import { mixedAs, versionAt } from '#calc/mixed-as.ts';
import { usesOf } from '#calc/used.ts';
import type { SaidOf } from '#model/entry.ts';
import type { Colourway, ColourwayId } from '#model/gear.ts';
import type { MaterialId } from '#model/material.ts';
import type { MixId } from '#model/mix.ts';
import { aMix } from '../hands/colours.ts';
import { dyedPot, evening, id, Pen, potMixed } from '../hands/log.ts';
import { aDose, aSide } from '../hands/mixes.ts';
import { expectWithin } from '../hands/within.ts';

const colourway = {
  id: id<ColourwayId>('colourway', 9),
  name: 'Slate',
  sides: [{ name: 'Slate', swatch: '#5e6a72' }],
  device: '0000000a',
  stamps: {},
  createdAt: evening,
  deletedAt: null,
} as Colourway;
const [plastisol, blue] = [id<MaterialId>('material', 3), id<MaterialId>('material', 4)];

/** Slate, for one cup. */
function slate(drops: number, changes: Partial<Parameters<typeof aMix>[1]> = {}) {
  const doses = [aDose(blue, drops, 'drop', { name: 'Blue' }), aDose(blue, 1, 'g')];
  const mix = aMix([], { colourwayId: colourway.id, ...changes });
  return { ...mix, sides: [aSide(doses, { plastisolId: plastisol })] };
}

describe('the pots of another colour', () => {
  test('stay and hold as much; without a mix of it only the colour is another', () => {
    const said = potMixed(1) as SaidOf<'pot-mixed'>;
    const next = mixedAs(said, colourway, null);
    expect(next).toMatchObject({ name: 'Slate', colourwayId: colourway.id });
    expect(next.pots).toEqual(
      said.pots.map((pot) => ({ ...pot, name: 'Slate', swatch: '#5e6a72' })),
    );
    expect(mixedAs(dyedPot(1, 12), colourway, null).pots[0]?.mix).toBeNull();
  });

  test('count the doses of its mix for what each held, and no longer those of the wrong one', () => {
    const mix = slate(4.6, { version: 3 });
    const next = mixedAs(dyedPot(1, 12), colourway, mix);
    // Two cups: 9.2 drops are nine, and the volume stays as it was told.
    expect(next.pots[0]).toMatchObject({
      volumeMl: 473.176473,
      mix: { mixId: mix.id, version: 3, role: 'only', plastisolId: plastisol },
    });
    const pen = new Pen();
    const wrong = pen.write(dyedPot(1, 12));
    pen.write({ kind: 'put-right', target: wrong.id, says: next, happenedAt: wrong.at });
    const uses = usesOf(standingOf(pen.entries));
    expect(uses.map(({ materialId, unit }) => [materialId, unit])).toEqual([
      [plastisol, 'mL'],
      [blue, 'drop'],
      [blue, 'g'],
    ]);
    for (const [at, amount] of [473.176473, 9, 2].entries()) {
      expectWithin(uses[at]?.amount ?? 0, amount, 1e-6);
    }
  });

  test('count none where what was hot before came coloured', () => {
    const said = potMixed(1) as SaidOf<'pot-mixed'>;
    const hot = { ...said, pots: said.pots.map((pot) => ({ ...pot, meanHeats: 2, maxHeats: 2 })) };
    expect(mixedAs(hot, colourway, slate(4)).pots[0]).not.toHaveProperty('mix');
    expect(mixedAs(dyedPot(1, 12, 1), colourway, slate(4)).pots[0]?.mix?.doses).toHaveLength(2);
  });
});

test('a pot is of the newest version there was then, or of the first where none was yet', () => {
  const day = 86_400_000;
  const one = slate(4, { id: id<MixId>('mix', 1), version: 1, createdAt: evening - 9 * day });
  const two = slate(5, { id: id<MixId>('mix', 2), version: 2, createdAt: evening - day });
  const three = slate(6, { id: id<MixId>('mix', 3), version: 3, createdAt: evening + day });
  const other = slate(9, { colourwayId: id<ColourwayId>('colourway', 8), version: 7 });
  const mixes = [three, other, one, two];
  const at = (when: number) => versionAt(mixes, colourway.id, when)?.version;
  expect([at(evening), at(evening - 2 * day), at(evening + 2 * day)]).toEqual([2, 1, 3]);
  expect(at(evening - 20 * day)).toBe(1);
  expect(versionAt([other], colourway.id, evening)).toBeNull();
});
