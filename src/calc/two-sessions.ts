import { type ChangeVerdict, changeVerdict } from '#calc/before-after.ts';
import { columnsOf } from '#calc/columns.ts';
import { countsBySession, defectCounts, loggedShots, warmShots } from '#calc/mould-shots.ts';
import { pourTempC } from '#calc/pot-course.ts';
import { roundsByPourer } from '#calc/pourers.ts';
import { type Table, tableOf } from '#calc/table.ts';
import { type Defect, defects } from '#model/defect.ts';
import type { Entry, SessionId } from '#model/entry.ts';

/** One session as it is held against another. */
export interface SessionFacts {
  startedAt: number;
  moulds: string[];
  colours: string[];
  injector: string;
  /** Who poured, in the order of their first rounds. */
  people: string[];
  ambientC: number;
  /** What the first pot was poured at, °C. */
  pourC: number;
  shots: number;
  /** Heats of the pot heated most. */
  heats: number;
  /** The middle time that the moulds stayed shut, s; 0: not known. */
  shutSec: number;
  /** The middle time from one round to the next, s; 0: one round. */
  paceSec: number;
  coldShots: number;
  defects: Map<Defect, number>;
}

/** What two sessions were like, and whether the second had more or fewer bad warm baits. */
export interface TwoSessions {
  a: SessionFacts;
  b: SessionFacts;
  /** From the first to the second, of bad ones; it says that they differ, never why. */
  verdict: ChangeVerdict;
}

/** Two sessions side by side, from their entries. */
export function twoSessions(
  a: { id: SessionId; entries: readonly Entry[] },
  b: { id: SessionId; entries: readonly Entry[] },
): TwoSessions {
  const [one, other] = [a, b].map(({ id, entries }) => {
    const shots = loggedShots([columnsOf(id, entries)]);
    return { table: tableOf(entries), shots, bad: countsBySession(warmShots(shots), 'bad') };
  });
  if (!one || !other) throw new RangeError('Two sessions are needed.');
  return {
    a: factsOf(one.table, one.shots),
    b: factsOf(other.table, other.shots),
    verdict: changeVerdict(one.bad, other.bad),
  };
}

function factsOf(table: Table, shots: ReturnType<typeof loggedShots>): SessionFacts {
  const counts = new Map(defectCounts(shots));
  const [first] = table.shots;
  const fills = [...new Set(table.shots.map(({ filledAt }) => filledAt))];
  const gaps = fills.slice(1).map((at, index) => (at - (fills[index] ?? at)) / 1_000);
  const pots = table.pots.filter(({ id }) => first?.potIds.includes(id));
  return {
    startedAt: table.begunAt,
    moulds: table.allSeats.map(({ mould }) => mould.name),
    colours: [...new Set(table.pots.map(({ colourwayName }) => colourwayName))],
    injector: table.injector?.name ?? '',
    people: roundsByPourer(table.pourers, table.shots).map(({ name }) => name),
    ambientC: table.ambientC,
    pourC: first ? pourTempC(table, pots, first.filledAt) : table.pourC,
    shots: shots.length,
    heats: Math.max(0, ...shots.map(({ heat }) => heat)),
    shutSec: middleOf(shots.flatMap(({ openSec }) => (openSec > 0 ? [openSec] : []))),
    paceSec: middleOf(gaps),
    coldShots: shots.filter(({ isCold }) => isCold === true).length,
    defects: new Map(
      defects.flatMap((defect) => {
        const count = counts.get(defect);
        return count ? [[defect, count] as const] : [];
      }),
    ),
  };
}

function middleOf(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}
