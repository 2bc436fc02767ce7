import { expect, test } from 'vitest';
import { type Columns, columnsOf } from '#calc/columns.ts';
import { pourerAt, roundsByPourer } from '#calc/pourers.ts';
import { tableOf } from '#calc/table.ts';
import type { PotId, ShotId } from '#model/entry.ts';
import { aFrozenMould, evening, id, Pen, sessionId } from '../hands/log.ts';

/** Two rounds by Ada, one by Ben; the logbook of two people at one phone. */
function shared(): Pen {
  const pen = new Pen();
  const mould = aFrozenMould(4);
  pen.write({ kind: 'session-begun', zone: 'UTC', ambientC: 20, pourC: 165 });
  pen.write({ kind: 'lined-up', moulds: [mould], injector: null });
  const fill = (number: number) =>
    pen.write({
      kind: 'filled',
      shots: [
        {
          shotId: id<ShotId>('shot', number),
          mouldId: mould.mouldId,
          volumeMl: 20,
          closed: [],
          setSec: 120,
        },
      ],
      potIds: [] as PotId[],
      injectorId: null,
    });
  pen.write({ kind: 'pourer-named', name: 'Ada' });
  fill(1);
  fill(2);
  pen.write({ kind: 'pourer-named', name: 'Ben' });
  fill(3);
  return pen;
}

test('each round belongs to who poured when it was filled', () => {
  const { pourers, shots } = tableOf(shared().entries);
  expect(roundsByPourer(pourers, shots)).toEqual([
    { name: 'Ada', rounds: 2 },
    { name: 'Ben', rounds: 1 },
  ]);
  expect(pourerAt(pourers, evening - 1)).toBeNull();
});

test('a name that is taken back leaves the rounds to the one before', () => {
  const pen = shared();
  const ben = pen.entries.find(({ said }) => said.kind === 'pourer-named' && said.name === 'Ben');
  pen.write({ kind: 'taken-back', target: ben?.id as never });
  const { pourers, shots } = tableOf(pen.entries);
  expect(roundsByPourer(pourers, shots)).toEqual([{ name: 'Ada', rounds: 3 }]);
});

test('nobody named: nobody poured', () => {
  const named = shared().entries.filter(({ said }) => said.kind !== 'pourer-named');
  const { pourers, shots } = tableOf(named);
  expect(pourers).toEqual([]);
  expect(roundsByPourer(pourers, shots)).toEqual([]);
});

test('who poured changes no figure of what was poured', () => {
  const pen = shared();
  const without = pen.entries.filter(({ said }) => said.kind !== 'pourer-named');
  // The checksum is of the lines themselves.
  const figures = ({ sum: _, ...all }: Columns) => all;
  expect(figures(columnsOf(sessionId, pen.entries))).toEqual(
    figures(columnsOf(sessionId, without)),
  );
});
