import { expect, test } from 'vitest';
import { asHeirs, heirsOf, mixIdsOf } from '#calc/heirs.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MixId } from '#model/mix.ts';
import { aColourant, aMix, drops, opticsOf } from '../hands/colours.ts';
import { id } from '../hands/log.ts';

const brown = aColourant('Brown', opticsOf(0.012, 0.004, 0, 1, 2, 3, 4, 5));
const [side, one, two] = [id<MixId>('mix', 1), id<MixId>('mix', 2), id<MixId>('mix', 3)];
const [reed, ink] = [id<ColourwayId>('colour', 1), id<ColourwayId>('colour', 2)];
const mixOf = (mixId: MixId, colourwayId: ColourwayId | null, changes: object = {}) => ({
  ...aMix([[drops(brown, 3)]], { id: mixId }),
  colourwayId,
  ...changes,
});
const named = (at: string) => ({ parts: [side], stamps: { colourwayId: at as never } });

test('a side goes by the laminate that took it in; of two that claim it, by the one named last', () => {
  const mixes = [mixOf(one, reed, named('2')), mixOf(two, ink, named('1')), mixOf(side, null)];
  for (const order of [mixes, mixes.toReversed()]) {
    expect(heirsOf(order).get(side)?.id).toBe(one);
    expect(mixIdsOf(order, reed).sort()).toEqual([side, one].sort());
    expect(mixIdsOf(order, ink)).toEqual([two]);
  }
});

test('a side with a name of its own goes by that, and a laminate without one takes nothing', () => {
  expect(heirsOf([mixOf(side, ink), mixOf(one, reed, named('2'))]).get(side)?.id).toBe(side);
  expect(heirsOf([mixOf(side, null), mixOf(one, null, named('2'))]).size).toBe(0);
});

test('what has a colour keeps it, and what is of no mix stays so', () => {
  const heirs = heirsOf([mixOf(one, reed, named('2'))]);
  expect(asHeirs({ colourwayId: null, mixId: side }, heirs)).toEqual({
    colourwayId: reed,
    mixId: one,
  });
  for (const kept of [
    { colourwayId: ink, mixId: side },
    { colourwayId: null, mixId: null },
    { colourwayId: null, mixId: two },
  ]) {
    expect(asHeirs(kept, heirs)).toBe(kept);
  }
});
