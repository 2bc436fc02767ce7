import type { Shot, Table } from '#calc/table.ts';
import type { Result } from '#model/entry.ts';
import type { MouldId } from '#model/mould.ts';

/** Counts of one shot or of many. */
export interface Count {
  good: number;
  bad: number;
  notChecked: number;
}

/** The counts of some results; closed cavities count nowhere. */
export function countOf(results: readonly Result[]): Count {
  const count = { good: 0, bad: 0, notChecked: 0 };
  for (const result of results) {
    if (result === 'good') count.good += 1;
    else if (result === 'not-checked') count.notChecked += 1;
    else if (result !== 'closed') count.bad += 1;
  }
  return count;
}

/** The counts of all logged shots of the session; a shot still in its mould counts nowhere yet. */
export function tonightOf(table: Table): Count {
  return summed(table.shots.filter((shot) => shot.loggedAt !== null));
}

/** The counts per bait and colour, in the order of their first shots. */
export function tonightByBait(
  table: Table,
): (Count & { mouldId: MouldId; name: string; colour: string })[] {
  const groups = new Map<
    string,
    { shots: Shot[]; mouldId: MouldId; name: string; colour: string }
  >();
  for (const shot of table.shots) {
    if (shot.loggedAt === null) continue;
    const colour = table.pots.find((pot) => shot.potIds.includes(pot.id))?.colourwayName ?? '';
    const key = `${shot.mouldId} ${colour}`;
    const seat = table.allSeats.find(({ mould }) => mould.mouldId === shot.mouldId);
    const group = groups.get(key) ?? {
      shots: [],
      mouldId: shot.mouldId,
      name: seat?.mould.name ?? '',
      colour,
    };
    group.shots.push(shot);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ shots, ...of }) => ({ ...of, ...summed(shots) }));
}

/** Logged shots with cavities that nobody looked at, oldest first. */
export function uncheckedShots(table: Table): Shot[] {
  return table.shots.filter(
    (shot) => shot.loggedAt !== null && shot.results.includes('not-checked'),
  );
}

function summed(shots: readonly Shot[]): Count {
  return countOf(shots.flatMap((shot) => shot.results));
}
