import type { Columns } from '#calc/columns.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';

/** When each mould and colourway was poured last; ids that were never poured are missing. */
export function lastPoured(columns: readonly Columns[]): Map<string, number> {
  const last = new Map<string, number>();
  for (const session of columns) {
    const ids = [
      ...session.moulds.map(({ mouldId }) => mouldId as string),
      ...session.colourways.flatMap(({ colourwayId }) =>
        colourwayId ? [colourwayId as string] : [],
      ),
    ];
    for (const id of ids) last.set(id, Math.max(last.get(id) ?? 0, session.startedAt));
  }
  return last;
}

/** The digests of the sessions that a mould was poured in. */
export function sessionsOfMould(columns: readonly Columns[], mouldId: MouldId): Columns[] {
  return columns.filter((session) => session.moulds.some((mould) => mould.mouldId === mouldId));
}

/** The moulds that a colourway went into, the one poured last first. */
export function mouldsOfColourway(
  columns: readonly Columns[],
  colourwayId: ColourwayId,
): MouldId[] {
  const newest = columns.toSorted((a, b) => b.startedAt - a.startedAt);
  const found = newest.flatMap(({ moulds, colourways, mould, colourway }) => {
    const isOfIt = (shot: number) => colourways[colourway[shot] ?? -1]?.colourwayId === colourwayId;
    const rows = Array.from(mould, (row, shot) => (isOfIt(shot) ? row : -1));
    return rows.toReversed().flatMap((row) => moulds[row]?.mouldId ?? []);
  });
  return [...new Set(found)];
}
