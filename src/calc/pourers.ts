import type { Standing } from '#calc/log.ts';
import { all } from '#calc/said.ts';
import type { Instant } from '#model/schemas.ts';

/** Who poured from an instant on. */
export interface Pourer {
  at: Instant;
  name: string;
}

/** Everybody who was named in a session, in the order of taking over; empty: nobody was. */
export function pourersOf(lines: readonly Standing[]): Pourer[] {
  return all(lines, 'pourer-named')
    .map(({ at, said }) => ({ at, name: said.name }))
    .sort((a, b) => a.at - b.at);
}

/** Who poured at an instant; null: nobody was named by then. */
export function pourerAt(pourers: readonly Pourer[], at: Instant): string | null {
  return pourers.filter((pourer) => pourer.at <= at).at(-1)?.name ?? null;
}

/** How many rounds each of them filled, in the order of their first; empty: nobody was named. */
export function roundsByPourer(
  pourers: readonly Pourer[],
  shots: readonly { round: number; filledAt: Instant }[],
): { name: string; rounds: number }[] {
  const fills = new Map(shots.map(({ round, filledAt }) => [round, filledAt]));
  const counts = new Map<string, number>();
  for (const filledAt of fills.values()) {
    const name = pourerAt(pourers, filledAt);
    if (name !== null) counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  return [...counts].map(([name, rounds]) => ({ name, rounds }));
}
