import type { Line } from '#calc/log.ts';
import { lastPouredAt, type Shot, type Table } from '#calc/table.ts';
import type { ShotId } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';

/** An instant that an entry cannot cross, and what happened there. */
export interface Limit {
  at: Instant;
  by: 'begun' | 'first-entry' | 'mixed' | 'filled' | 'last-filled' | 'opened' | 'now' | 'none';
}

/** Between which instants an entry can have happened: nothing is opened before it is filled. */
export function entryLimits(
  table: Table,
  lines: readonly Line[],
  line: Line,
  now: Instant,
): { from: Limit; to: Limit } {
  const begun: Limit = { at: table.begunAt, by: 'begun' };
  const until: Limit = { at: now, by: 'now' };
  const { said } = line;
  switch (said.kind) {
    case 'session-begun':
      return { from: { at: 0, by: 'none' }, to: firstAfter(lines, line) ?? until };
    case 'session-ended':
      return { from: latest(begun, table.shots.map(filledLimit('last-filled'))), to: until };
    case 'filled':
      return {
        from: begun,
        to: earliest(until, shotsIn(table, said.shots).flatMap(afterFillLimits)),
      };
    case 'opened':
      return {
        from: latest(begun, shotsIn(table, said.shots).map(pouredLimit)),
        to: until,
      };
    case 'layer-poured': {
      const shots = shotsIn(table, said.shots);
      return {
        from: latest(begun, shots.map(filledLimit('filled'))),
        to: earliest(until, shots.flatMap(openLimits)),
      };
    }
    case 'clock-stopped': {
      const shots = shotsIn(table, [said]);
      const logged = shots.flatMap(({ loggedAt }) => openedLimit(loggedAt));
      return {
        from: latest(begun, shots.map(pouredLimit)),
        to: earliest(until, logged),
      };
    }
    default: {
      const pot = 'potId' in said ? table.pots.find(({ id }) => id === said.potId) : undefined;
      return { from: pot ? { at: pot.mixedAt, by: 'mixed' } : begun, to: until };
    }
  }
}

function shotsIn(table: Table, named: readonly { shotId: ShotId }[]): Shot[] {
  return table.shots.filter((shot) => named.some(({ shotId }) => shotId === shot.id));
}

function filledLimit(by: 'filled' | 'last-filled') {
  return ({ filledAt }: Shot): Limit => ({ at: filledAt, by });
}

/** Nothing is opened before its last layer is in. */
function pouredLimit(shot: Shot): Limit {
  return { at: lastPouredAt(shot), by: 'filled' };
}

/** No layer is poured before the first. */
function afterFillLimits(shot: Shot): Limit[] {
  const second = shot.layers[1];
  return [...(second ? [{ at: second.at, by: 'filled' } as const] : []), ...openLimits(shot)];
}

function openLimits({ clockStoppedAt, loggedAt }: Shot): Limit[] {
  return [...openedLimit(clockStoppedAt), ...openedLimit(loggedAt)];
}

function openedLimit(at: Instant | null): Limit[] {
  return at === null ? [] : [{ at, by: 'opened' }];
}

/** The first line that was not written in the same act as the beginning. */
function firstAfter(lines: readonly Line[], begun: Line): Limit | null {
  const later = lines.filter(
    (line) => line.takenBackAt === null && line.writtenAt !== begun.writtenAt,
  );
  if (later.length === 0) return null;
  return { at: Math.min(...later.map(({ at }) => at)), by: 'first-entry' };
}

function latest(first: Limit, others: readonly Limit[]): Limit {
  return others.reduce((last, limit) => (limit.at > last.at ? limit : last), first);
}

function earliest(first: Limit, others: readonly Limit[]): Limit {
  return others.reduce((soonest, limit) => (limit.at < soonest.at ? limit : soonest), first);
}
