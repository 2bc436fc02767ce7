import { tableOf } from '#calc/table.ts';
import type { Entry, SaidOf } from '#model/entry.ts';
import type { ColourwayId, InjectorId } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';

/** A set time of a mould, as it is said at the table. */
export type SetTime = SaidOf<'set-time-chosen'>;

/** What a session was poured with; of its times, counts, readings and results nothing. */
export interface Evening {
  at: Instant;
  zone: string;
  /** In the order of the table, three at most. */
  mouldIds: readonly MouldId[];
  /** In the order in which they were planned or mixed. */
  colourwayIds: readonly ColourwayId[];
  injectorId: InjectorId | null;
  /** What its first pot began with, mL; null: nothing was mixed. */
  potMl: number | null;
  /** How long each mould stayed shut at its end, where that was somebody's choice. */
  setTimes: readonly SetTime[];
  /** What it took for the pour temperature, °C. */
  pourC: number;
  /** Who poured first; null: nobody was named. */
  pourer: string | null;
}

const mostMoulds = 3;

/** What the session of these entries was poured with; null: no mould was ever on its table. */
export function eveningOf(entries: readonly Entry[]): Evening | null {
  const table = tableOf(entries);
  const seats = table.allSeats.slice(0, mostMoulds);
  if (seats.length === 0) return null;
  const mixed = table.pots.flatMap(({ colourwayId }) => colourwayId ?? []);
  return {
    at: table.begunAt,
    zone: table.zone,
    mouldIds: seats.map(({ mould }) => mould.mouldId),
    colourwayIds: [...new Set([...table.planned, ...mixed])],
    injectorId: table.shots.at(-1)?.injectorId ?? table.injector?.injectorId ?? null,
    potMl: table.pots[0]?.mixedMl ?? null,
    setTimes: seats.flatMap(({ mould: { mouldId, setSec, hasNoClock } }): SetTime[] =>
      setSec === null && !hasNoClock
        ? []
        : [{ kind: 'set-time-chosen', mouldId, setSec, hasNoClock }],
    ),
    pourC: table.pourC,
    pourer: table.pourers[0]?.name ?? null,
  };
}
