import type { Columns } from '#calc/columns.ts';
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
