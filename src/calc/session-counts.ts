import { type Columns, noFlag } from '#calc/columns.ts';
import type { ShotCounts } from '#calc/yield.ts';
import { countsOf, type Which, yieldsByMould } from '#calc/yields.ts';

/** Per session, good and checked of each shot of all its moulds; sessions with nothing checked are left out. */
export function sessionCounts(columns: readonly Columns[], which: Which = 'all'): ShotCounts[] {
  return columns
    .map((session) => {
      const counts = yieldsByMould([session], which).flatMap((own) => countsOf(own.sessions));
      return { x: counts.flatMap(({ x }) => x), n: counts.flatMap(({ n }) => n) };
    })
    .filter(({ n }) => n.length > 0);
}

/** True when a cold mould was watched for at all: some materials do not chill the plastic. */
export function watchesCold(columns: readonly Columns[]): boolean {
  return columns.some(({ cold }) => cold.some((flag) => flag !== noFlag));
}

/** The colours that were poured in a session, the one of most shots first. */
export function pouredColours(session: Columns): Columns['colourways'][number][] {
  const shots = new Map<number, number>();
  for (const index of session.colourway) shots.set(index, (shots.get(index) ?? 0) + 1);
  return [...shots]
    .sort(([, a], [, b]) => b - a)
    .flatMap(([index]) => session.colourways[index] ?? [])
    .filter(({ name }) => name !== '');
}

/** How many first shots of every mould were cold, when just those were and as many of each; else null. */
export function coldFirst(columns: readonly Columns[]): number | null {
  const starts = columns.flatMap((session) =>
    yieldsByMould([session]).map((own) => {
      const flags = own.sessions.flatMap(({ shots }) => shots.map(({ isCold }) => isCold));
      const firstWarm = flags.indexOf(false);
      const cold = firstWarm === -1 ? flags.length : firstWarm;
      return flags.slice(cold).includes(true) ? null : cold;
    }),
  );
  const [first = null] = starts;
  return first !== null && first > 0 && starts.every((cold) => cold === first) ? first : null;
}
