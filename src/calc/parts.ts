import { cavityCount } from '#calc/cavity-layout.ts';
import type { Seat, Table } from '#calc/table.ts';
import { afterStep, noStep } from '#calc/tray.ts';
import type { MouldId, PartKind } from '#model/mould.ts';

/** How many parts lie in each tray now, by their mould. */
export type Trays = ReadonlyMap<MouldId, number>;

/** One tray that matters to some moulds: what lies in it and what their next fill takes out. */
export interface PartsAt {
  mouldId: MouldId;
  name: string;
  part: PartKind;
  has: number;
  needs: number;
}

/** Moulds whose trays matter to those on the table: of parts that they make or take. */
export function trayMoulds(table: Table): MouldId[] {
  return [...new Set(partsAt(table.allSeats, new Map()).map(({ mouldId }) => mouldId))];
}

/** The trays now: what they held before this session, and what it did since. */
export function traysNow(table: Table, before: Trays): Trays {
  return new Map(
    trayMoulds(table).map((mouldId) => {
      const step = table.trays.find((one) => one.mouldId === mouldId) ?? noStep;
      return [mouldId, afterStep(before.get(mouldId) ?? 0, step)];
    }),
  );
}

/** The trays that these moulds make or take parts of, the scarcest first; those nobody takes from come last. */
export function partsAt(seats: readonly Seat[], trays: Trays): PartsAt[] {
  const found = new Map<MouldId, PartsAt>();
  for (const { mould, isSkipped } of seats) {
    const { mouldId, name, makes } = mould;
    if (makes && !found.has(mouldId)) {
      found.set(mouldId, { mouldId, name, part: makes, has: trays.get(mouldId) ?? 0, needs: 0 });
    }
    const cavities = Math.max(0, cavityCount(mould.layout) - mould.closed.length);
    for (const need of mould.needs ?? []) {
      const known = found.get(need.mouldId);
      found.set(need.mouldId, {
        mouldId: need.mouldId,
        name: need.name,
        part: need.part,
        has: trays.get(need.mouldId) ?? 0,
        needs: (known?.needs ?? 0) + (isSkipped ? 0 : need.each * cavities),
      });
    }
  }
  const spare = ({ has, needs }: PartsAt) => (needs > 0 ? has - needs : Number.POSITIVE_INFINITY);
  return [...found.values()].sort((a, b) => {
    if (spare(a) === spare(b)) return 0;
    return spare(a) < spare(b) ? -1 : 1;
  });
}

/** The scarcest tray that does not hold what the next fill of these moulds takes; null: all do. */
export function shortageOf(seats: readonly Seat[], trays: Trays): PartsAt | null {
  return partsAt(seats, trays).find(({ has, needs }) => has < needs) ?? null;
}
