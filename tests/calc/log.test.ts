import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { linesOf, standingOf } from '#calc/log.ts';
import { mergedEntries } from '#calc/merge.ts';
import { tableOf } from '#calc/table.ts';
import type { Entry } from '#model/entry.ts';
import { aPress, aSession, evening, filled, Pen } from '../hands/log.ts';

describe('the log', () => {
  test('the order in which entries arrive does not matter, and neither do doubles', () => {
    fc.assert(
      fc.property(aSession, fc.infiniteStream(fc.nat()), (entries, keys) => {
        const shuffled = [...entries, ...entries.slice(0, 3)]
          .map((entry) => ({ entry, key: keys.next().value }))
          .sort((a, b) => a.key - b.key)
          .map(({ entry }) => entry);
        expect(standingOf(shuffled)).toEqual(standingOf(entries));
        expect(tableOf(shuffled)).toEqual(tableOf(entries));
      }),
    );
  });

  test('taking an entry back equals never having written it', () => {
    fc.assert(
      fc.property(aSession, aPress, aSession, (before, press, after) => {
        const pen = new Pen('0000000b');
        const late = evening + 86_400_000;
        const entry = pen.write(press, late);
        const takes = pen.write({ kind: 'taken-back', target: entry.id }, late + 1);
        const rest = [...before, ...moved(after, late + 2)];
        const without = { ...tableOf(rest), lastAt: 0 };
        expect({ ...tableOf([...rest, entry, takes]), lastAt: 0 }).toEqual(without);
      }),
    );
  });

  test('taking a taking-back back brings the entry again, however often', () => {
    const pen = new Pen().open();
    const fill = pen.fill(1, 1);
    const one = pen.write({ kind: 'taken-back', target: fill.id });
    expect(tableOf(pen.entries).shots).toHaveLength(0);
    const two = pen.write({ kind: 'taken-back', target: one.id });
    expect(tableOf(pen.entries).shots).toHaveLength(1);
    pen.write({ kind: 'taken-back', target: two.id });
    expect(tableOf(pen.entries).shots).toHaveLength(0);
  });

  test('a line that was put right says what it should have said and keeps what it said', () => {
    const pen = new Pen().open();
    const fill = pen.fill(1, 1);
    const log = pen.log(1, ['good', 'good', 'good', 'good']);
    pen.write({
      kind: 'put-right',
      target: log.id,
      says: {
        kind: 'opened',
        shots: [{ shotId: idOfShot(fill), results: ['good', 'short', 'good', 'good'] }],
      },
      happenedAt: log.at - 120_000,
    });
    const line = linesOf(pen.entries).find(({ id }) => id === log.id);
    expect(line?.at).toBe(log.at - 120_000);
    expect(line?.before?.at).toBe(log.at);
    expect(line?.before?.said).toEqual(log.said);
    expect(tableOf(pen.entries).shots[0]?.results).toEqual(['good', 'short', 'good', 'good']);
  });

  test('the newest putting right counts, and taking it back leaves the one before', () => {
    const pen = new Pen().open();
    const heat = pen.write({ kind: 'pot-read', potId: potId(), tempC: 150 });
    const right = (tempC: number) =>
      pen.write({
        kind: 'put-right',
        target: heat.id,
        says: { kind: 'pot-read', potId: potId(), tempC },
        happenedAt: heat.at,
      });
    right(160);
    const last = right(170);
    const tempNow = () => standingOf(pen.entries).find(({ id }) => id === heat.id)?.said;
    expect(tempNow()).toMatchObject({ tempC: 170 });
    pen.write({ kind: 'taken-back', target: last.id });
    expect(tempNow()).toMatchObject({ tempC: 160 });
  });

  test('merging two copies of a session is commutative, associative and idempotent', () => {
    fc.assert(
      fc.property(aSession, aSession, aSession, (a, b, c) => {
        const [x, y, z] = [a, fromOther(b, '0000000b'), fromOther(c, '0000000c')] as const;
        expect(mergedEntries(x, y)).toEqual(mergedEntries(y, x));
        expect(mergedEntries(mergedEntries(x, y), z)).toEqual(
          mergedEntries(x, mergedEntries(y, z)),
        );
        expect(mergedEntries(x, x)).toEqual(mergedEntries(x, []));
      }),
    );
  });
});

function moved(entries: readonly Entry[], after: number): Entry[] {
  const pen = new Pen('0000000c');
  const ids = new Map<string, string>();
  return entries.map((entry, index) => {
    const target = 'target' in entry.said ? ids.get(entry.said.target as string) : undefined;
    const said = target ? { ...entry.said, target } : entry.said;
    const next = pen.write(said as Entry['said'], after + index * 1_000);
    ids.set(entry.id, next.id);
    return next;
  });
}

function fromOther(entries: readonly Entry[], device: string): Entry[] {
  return entries.map((entry) => ({
    ...entry,
    device,
    id: `${entry.id.slice(0, -12)}${device}${entry.id.slice(-4)}` as Entry['id'],
    stamp: `${entry.stamp.slice(0, -8)}${device}`,
  }));
}

function idOfShot(entry: Entry) {
  if (entry.said.kind !== 'filled') throw new Error('not a fill');
  return (entry.said as Extract<ReturnType<typeof filled>, { kind: 'filled' }>).shots[0]
    ?.shotId as never;
}

function potId() {
  const said = filled(1, 1);
  return (said as { potIds: string[] }).potIds[0] as never;
}
