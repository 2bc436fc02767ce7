import { expect, test } from 'vitest';
import { mixedAs } from '#calc/mixed-as.ts';
import type { Colourway } from '#model/gear.ts';
import { evening, id, potMixed } from '../hands/log.ts';

test('the pots stay and hold as much; only the colour is another', () => {
  const said = potMixed(1);
  if (said.kind !== 'pot-mixed') throw new Error('That is no mix.');
  const colourway = {
    id: id('colourway', 9),
    name: 'Slate',
    sides: [{ name: 'Slate', swatch: '#5e6a72' }],
    device: '0000000a',
    stamps: {},
    createdAt: evening,
    deletedAt: null,
  } as Colourway;
  const next = mixedAs(said, colourway);
  expect(next).toMatchObject({ name: 'Slate', colourwayId: colourway.id });
  expect(next.pots).toEqual(said.pots.map((pot) => ({ ...pot, name: 'Slate', swatch: '#5e6a72' })));
});
