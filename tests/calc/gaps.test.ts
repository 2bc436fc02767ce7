import fc from 'fast-check';
import { expect, test } from 'vitest';
import { columnsOf } from '#calc/columns.ts';
import { gapsIn } from '#calc/gaps.ts';
import { tableOf } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';
import type { SessionId } from '#model/entry.ts';
import { aSession, id } from '../hands/log.ts';

test('every bait that the table shows as not checked is a gap, and nothing else is', () => {
  fc.assert(
    fc.property(fc.array(aSession, { maxLength: 4 }), (sessions) => {
      const digests = sessions.map((entries, at) =>
        columnsOf(id<SessionId>('session', at), entries),
      );
      const open = sessions.map(
        (entries) => countOf(tableOf(entries).shots.flatMap(({ results }) => results)).notChecked,
      );
      const last = open.findLastIndex((count) => count > 0);
      const baits = open.reduce((sum, count) => sum + count, 0);
      expect(gapsIn(digests)).toEqual(
        last === -1
          ? null
          : {
              baits,
              sessions: open.filter((count) => count > 0).length,
              newest: id<SessionId>('session', last),
            },
      );
    }),
    { numRuns: 50 },
  );
});
