import { cavityCount } from '#calc/cavity-layout.ts';
import { type HandPour, handPourOf, type Layer, layersOf } from '#calc/layers.ts';
import { type Standing, standingOf, undoneNext } from '#calc/log.ts';
import { type Pourer, pourersOf } from '#calc/pourers.ts';
import { all } from '#calc/said.ts';
import { mouldsOf } from '#calc/table-moulds.ts';
import { drawnOf, inUseOf, type Pot, potsOf } from '#calc/table-pots.ts';
import { type TrayChange, trayChangesOf } from '#calc/tray.ts';
import { type Tried, triedOf } from '#calc/trials.ts';
import type { Entry, EntryId, FilledShot, PotId, Result, SessionId, ShotId } from '#model/entry.ts';
import type { ColourwayId, FrozenInjector, InjectorId } from '#model/gear.ts';
import type { FrozenMould, MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';

/** One fill of one mould and what came of it. */
export interface Shot {
  id: ShotId;
  mouldId: MouldId;
  /** Counted per mould and session, from 1. */
  number: number;
  /** The round it belongs to, from 1. */
  round: number;
  filledAt: Instant;
  volumeMl: number;
  setSec: number | null;
  potIds: readonly PotId[];
  colourwayId: ColourwayId | null;
  injectorId: InjectorId | null;
  filledBy: EntryId;
  /** When the clock was ended by hand; null: it runs or ran out. */
  clockStoppedAt: Instant | null;
  loggedAt: Instant | null;
  loggedBy: EntryId | null;
  /** What each cavity gave, in counting order. Not logged yet: closed cavities are closed, the rest not checked. */
  results: readonly Result[];
  /** What was poured into it, first to last; one for an injected shot. */
  layers: readonly Layer[];
  /** What it tried of a new mould, and whether it did; empty: it was no trial. */
  tried: Tried;
}

/** A mould's place on the table. */
export interface Seat {
  /** As it was frozen, with the set time and the closed cavities of this moment. */
  mould: FrozenMould;
  isSkipped: boolean;
  shots: readonly Shot[];
  readings: readonly { at: Instant; tempC: number }[];
  /** The hand pour that comes next; null: this mould is injected. */
  hand: HandPour | null;
}

/** A session as it stands: the fold over its entries. */
export interface Table {
  sessionId: SessionId | null;
  begunAt: Instant;
  endedAt: Instant | null;
  zone: string;
  ambientC: number;
  /** Taken for the pour temperature of a pot that was not measured. */
  pourC: number;
  /** Moulds on the table now, in their order. */
  seats: readonly Seat[];
  /** Every mould of the session, also those taken off the table again. */
  allSeats: readonly Seat[];
  injector: FrozenInjector | null;
  /** Every pot of the session, in the order of mixing. */
  pots: readonly Pot[];
  /** The pots that stand on the table, by slot. */
  potsInUse: readonly Pot[];
  /** Those of them that the next injected round draws from. */
  potsDrawn: readonly Pot[];
  /** What this session did to each tray of parts. */
  trays: readonly TrayChange[];
  /** Every shot of the session, in the order of filling. */
  shots: readonly Shot[];
  rounds: number;
  /** The colours of the evening in their order; empty: nobody planned any. */
  planned: readonly ColourwayId[];
  /** Who poured from when on. */
  pourers: readonly Pourer[];
  notes: readonly { id: EntryId; at: Instant; text: string }[];
  /** What its bad baits weighed on a scale; null: nobody weighed them. */
  scrapG: number | null;
  /** What Undo would take back; null: nothing left. */
  undoes: Standing | null;
  lastAt: Instant;
}

/**
 * The table as a fold over a session's entries. The order in which they come does not matter, a
 * missing one leaves a valid table, and taking one back equals never having written it.
 */
export function tableOf(entries: readonly Entry[]): Table {
  const lines = standingOf(entries);
  const begun = lines.find((line) => line.said.kind === 'session-begun');
  const { moulds, lineUp, injector } = mouldsOf(lines);
  const pots = potsOf(lines);
  const potsInUse = inUseOf(pots);
  const shots = shotsOf(lines, moulds, pots);
  const skipped = skippedOf(lines, shots);
  const allSeats = [...moulds.values()].map((mould): Seat => {
    const own = shots.filter((shot) => shot.mouldId === mould.mouldId);
    return {
      mould,
      isSkipped: skipped.has(mould.mouldId),
      shots: own,
      readings: all(lines, 'mould-read')
        .filter(({ said }) => said.mouldId === mould.mouldId)
        .map(({ at, said }) => ({ at, tempC: said.tempC })),
      hand: handPourOf({ mould, shots: own, pots, potsInUse }, lines),
    };
  });
  return {
    sessionId: entries[0]?.sessionId ?? null,
    begunAt: begun?.at ?? lines[0]?.at ?? 0,
    endedAt: all(lines, 'session-ended').at(-1)?.at ?? null,
    zone: begun?.said.kind === 'session-begun' ? begun.said.zone : 'UTC',
    ambientC: ambientOf(lines),
    pourC: begun?.said.kind === 'session-begun' ? begun.said.pourC : 165,
    seats: lineUp.flatMap((id) => allSeats.find((seat) => seat.mould.mouldId === id) ?? []),
    allSeats,
    injector,
    pots,
    potsInUse,
    potsDrawn: drawnOf(lines, potsInUse),
    trays: trayChangesOf(lines, moulds),
    shots,
    rounds: Math.max(0, ...shots.map((shot) => shot.round)),
    planned: all(lines, 'colours-planned').at(-1)?.said.colourwayIds ?? [],
    pourers: pourersOf(lines),
    notes: all(lines, 'noted').map(({ id, at, said }) => ({ id, at, text: said.text })),
    scrapG: all(lines, 'scrap-weighed').at(-1)?.said.massG ?? null,
    undoes: undoneNext(lines, begun),
    lastAt: Math.max(0, ...entries.map((entry) => entry.writtenAt)),
  };
}

/** Where a mould is in its walk at one instant. */
export type Stage = 'skipped' | 'empty' | 'setting' | 'open';

/**
 * Where the mould is now: a shot that is not logged is setting until its clock ends, then open. One
 * that waits for a layer is setting, whatever the clock says.
 */
export function stageAt(seat: Seat, now: Instant): Stage {
  const shot = waitingShot(seat);
  if (shot) return now >= opensAt(shot) && !isBetweenLayers(seat) ? 'open' : 'setting';
  return seat.isSkipped ? 'skipped' : 'empty';
}

/** The shot that is in the mould and not logged yet. */
export function waitingShot(seat: Seat): Shot | null {
  const last = seat.shots.at(-1);
  return last && last.loggedAt === null ? last : null;
}

/** True while the shot in the mould waits for its next layer. */
export function isBetweenLayers(seat: Seat): boolean {
  return waitingShot(seat) !== null && (seat.hand?.pot ?? null) !== null;
}

/** When the last plastic went in: of a hand pour, the last layer. The set clock runs from there. */
export function lastPouredAt(shot: Shot): Instant {
  return shot.layers.at(-1)?.at ?? shot.filledAt;
}

/** When the mould counts as open: the clock stopped by hand, or run out; at once without a clock. */
export function opensAt(shot: Shot): Instant {
  return shot.clockStoppedAt ?? lastPouredAt(shot) + (shot.setSec ?? 0) * 1_000;
}

function ambientOf(lines: readonly Standing[]): number {
  const last = lines.findLast(
    ({ said }) => said.kind === 'ambient-read' || said.kind === 'session-begun',
  );
  return last && 'ambientC' in last.said ? Number(last.said.ambientC) : 20;
}

function shotsOf(
  lines: readonly Standing[],
  moulds: ReadonlyMap<MouldId, FrozenMould>,
  pots: readonly Pot[],
): Shot[] {
  const stopped = new Map(all(lines, 'clock-stopped').map((line) => [line.said.shotId, line.at]));
  const logged = new Map(
    all(lines, 'opened').flatMap((line) =>
      line.said.shots.map((shot) => [shot.shotId, { line, results: shot.results }] as const),
    ),
  );
  const layers = layersOf(lines);
  const tried = triedOf(lines);
  const counts = new Map<MouldId, number>();
  return all(lines, 'filled').flatMap(({ id, at, said }, index) => {
    const colourwayId = pots.find((pot) => said.potIds.includes(pot.id))?.colourwayId ?? null;
    return said.shots.flatMap((filled): Shot[] => {
      const mould = moulds.get(filled.mouldId);
      if (!mould) return [];
      const number = (counts.get(filled.mouldId) ?? 0) + 1;
      counts.set(filled.mouldId, number);
      const log = logged.get(filled.shotId);
      const above = layers.get(filled.shotId) ?? [];
      return [
        {
          id: filled.shotId,
          mouldId: filled.mouldId,
          number,
          round: index + 1,
          filledAt: at,
          volumeMl: above.reduce((sum, layer) => sum + layer.volumeMl, filled.volumeMl),
          setSec: filled.setSec,
          potIds: [...new Set([...said.potIds, ...above.flatMap(({ potIds }) => potIds)])],
          colourwayId,
          injectorId: said.injectorId,
          filledBy: id,
          clockStoppedAt: stopped.get(filled.shotId) ?? null,
          loggedAt: log?.line.at ?? null,
          loggedBy: log?.line.id ?? null,
          results: log?.results ?? unloggedResults(filled, cavityCount(mould.layout)),
          layers: [{ potIds: said.potIds, at }, ...above.map(({ potIds, at }) => ({ potIds, at }))],
          tried: tried.get(filled.shotId) ?? {},
        },
      ];
    });
  });
}

function unloggedResults(filled: FilledShot, cavities: number): Result[] {
  return Array.from({ length: cavities }, (_, index) =>
    filled.closed.includes(index + 1) ? 'closed' : 'not-checked',
  );
}

/** Moulds that sit out: until they are put back, or until the round they sat out is all logged. */
function skippedOf(lines: readonly Standing[], shots: readonly Shot[]): Set<MouldId> {
  const skipped = new Set<MouldId>();
  for (const { said, stamp } of all(lines, 'skipped')) {
    const round = all(lines, 'filled').find((line) => line.stamp > stamp);
    const own = shots.filter((shot) => shot.filledBy === round?.id);
    const isOver = round !== undefined && own.every((shot) => shot.loggedAt !== null);
    if (said.isSkipped && !isOver) skipped.add(said.mouldId);
    else skipped.delete(said.mouldId);
  }
  return skipped;
}
