import { cavityCount } from '#calc/cavity-layout.ts';
import { crc32 } from '#calc/crc32.ts';
import { type Standing, standingOf } from '#calc/log.ts';
import { heatNumberAt } from '#calc/pot-course.ts';
import { type PotRun, potRunsOf } from '#calc/pot-runs.ts';
import { all } from '#calc/said.ts';
import { type Scrap, scrapOf } from '#calc/scrap.ts';
import { openSec } from '#calc/set-clock.ts';
import { laterStamp } from '#calc/stamp.ts';
import { type Seat, type Shot, type Table, tableOf } from '#calc/table.ts';
import { mentionsIn } from '#calc/told-mixes.ts';
import type { TrayChange } from '#calc/tray.ts';
import { type PackedUse, packedUses, usesOf } from '#calc/used.ts';
import { isColdShot, tempBeforeC } from '#calc/warmth.ts';
import { defects } from '#model/defect.ts';
import type { Entry, Result, SessionId } from '#model/entry.ts';
import type { ColourwayId, InjectorId } from '#model/gear.ts';
import type { MixId } from '#model/mix.ts';
import type { MouldId } from '#model/mould.ts';
import type { Instant, Stamp } from '#model/schemas.ts';
import { type Trial, trials } from '#model/trial.ts';

/**
 * The number of each result in a digest. Only ever add at the end: digests on disk keep the old
 * numbers until they are rebuilt.
 */
export const resultCodes: readonly Result[] = ['good', 'closed', 'not-checked', ...defects];
export const goodCode = 0;
export const closedCode = 1;
export const notCheckedCode = 2;

/** Cold flags: poured warm, poured cold, or a mould without the flag. */
export const warmFlag = 0;
export const coldFlag = 1;
export const noFlag = 2;

/**
 * One ended session, packed for pages that look at days and years: a row a shot, in the order of
 * filling. Rebuildable from the entries, never merged, never in a file.
 */
export interface Columns {
  sessionId: SessionId;
  startedAt: Instant;
  endedAt: Instant;
  zone: string;
  moulds: readonly { mouldId: MouldId; name: string; cavities: number }[];
  colourways: readonly {
    colourwayId: ColourwayId | null;
    name: string;
    swatches: readonly string[];
  }[];
  injectorIds: readonly (InjectorId | null)[];
  /** Index into `moulds`, `colourways` and `injectorIds`. */
  mould: Uint8Array;
  colourway: Uint8Array;
  injector: Uint8Array;
  /** The heat the pot was in, at most 255. */
  heat: Uint8Array;
  /** Seconds from the start of the session to the fill. */
  filledSec: Float64Array;
  /** Seconds the mould stayed shut; 0: not known. */
  openSec: Float32Array;
  /** Predicted mould temperature before the shot, °C. */
  tempC: Float32Array;
  cold: Uint8Array;
  /** Where a shot's cavities begin in `cells`; one more than there are shots. */
  firstCell: Uint32Array;
  /** Result codes, cavity after cavity. */
  cells: Uint8Array;
  /** What the session took off the shelf; absent: packed before that was kept, nothing is known. */
  used?: readonly PackedUse[];
  /** The versions that pots were mixed of, the first pot of each; absent in older digests: not known. */
  mixed?: readonly PackedPour[];
  /** Every version its lines speak of, also in what was taken back; absent in older digests: not known. */
  told?: readonly MixId[];
  /** What the session did to each tray of parts; absent in older digests: nothing. */
  trays?: readonly TrayChange[];
  /** The pots whose left-over was told; absent in older digests: none. */
  runs?: readonly PotRun[];
  /** What shots tried of their moulds, each by its row; absent in older digests: nothing. */
  tried?: readonly { shot: number; what: Trial; did: boolean }[];
  /** The newest of its lines, so that a later correction is seen; absent in older digests. */
  newest?: Stamp;
  /** A checksum of its lines, by which what was read of them is known to hold; absent in older digests. */
  sum?: number;
  /** Its bad baits, where they were weighed; absent: nobody did. */
  scrap?: Scrap;
}

/** A version of a mix that a session poured: when its first pot was mixed, and how much that was. */
export interface PackedPour {
  mixId: MixId;
  /** Seconds from the start of the session. */
  afterSec: number;
  volumeMl: number;
}

/** The versions of mixes that pots were mixed of, as the log stands. */
export function packedPours(lines: readonly Standing[], startedAt: Instant): PackedPour[] {
  const first = new Map<MixId, PackedPour>();
  for (const { at, said } of all(lines, 'pot-mixed')) {
    for (const { mix, volumeMl } of said.pots) {
      if (!mix || first.has(mix.mixId)) continue;
      first.set(mix.mixId, { mixId: mix.mixId, afterSec: (at - startedAt) / 1_000, volumeMl });
    }
  }
  return [...first.values()];
}

/** The digest of a session's entries. */
export function columnsOf(sessionId: SessionId, entries: readonly Entry[]): Columns {
  const table = tableOf(entries);
  const lines = standingOf(entries);
  const seats = new Map(table.allSeats.map((seat) => [seat.mould.mouldId, seat]));
  const shots = table.shots.filter((shot) => seats.has(shot.mouldId));
  const moulds = table.allSeats.map(({ mould }) => ({
    mouldId: mould.mouldId,
    name: mould.name,
    cavities: cavityCount(mould.layout),
  }));
  const colourways = colourwaysOf(table);
  const injectorIds = [...new Set(shots.map((shot) => shot.injectorId))];
  const seatOf = (shot: Shot) => seats.get(shot.mouldId) as Seat;
  return {
    sessionId,
    startedAt: table.begunAt,
    endedAt: table.endedAt ?? table.lastAt,
    zone: table.zone,
    moulds,
    colourways,
    injectorIds,
    mould: bytes(shots, (shot) => moulds.findIndex(({ mouldId }) => mouldId === shot.mouldId)),
    colourway: bytes(shots, (shot) => colourwayIndex(table, colourways, shot)),
    injector: bytes(shots, (shot) => injectorIds.indexOf(shot.injectorId)),
    heat: bytes(shots, (shot) => heatOfShot(table, shot)),
    filledSec: Float64Array.from(shots, (shot) => (shot.filledAt - table.begunAt) / 1_000),
    openSec: Float32Array.from(shots, (shot) => openSec(shot) ?? 0),
    tempC: Float32Array.from(shots, (shot) => tempBeforeC(table, seatOf(shot), shot)),
    cold: bytes(shots, (shot) => coldFlagOf(isColdShot(table, seatOf(shot), shot))),
    ...cellsOf(shots),
    used: packedUses(usesOf(lines), table.begunAt),
    mixed: packedPours(lines, table.begunAt),
    told: [...mentionsIn(entries).mentioned],
    runs: potRunsOf(lines),
    trays: table.trays,
    ...newestOf(entries),
    sum: sumOf(entries),
    tried: shots.flatMap(({ tried }, shot) =>
      trials.flatMap((what) => {
        const did = tried[what];
        return did === undefined ? [] : [{ shot, what, did }];
      }),
    ),
    ...(table.scrapG === null ? {} : { scrap: scrapOf(table) }),
  };
}

/** The same for the same lines, in whatever order they come; ids are of plain letters. */
function sumOf(entries: readonly Entry[]): number {
  const ids = [...new Set(entries.map(({ id }) => id))].sort().join();
  return crc32(Uint8Array.from(ids, (letter) => letter.charCodeAt(0)));
}

function newestOf(entries: readonly Entry[]): Pick<Columns, 'newest'> {
  const newest = entries.reduce<Stamp | null>((last, { stamp }) => laterStamp(last, stamp), null);
  return newest ? { newest } : {};
}

/** The heat that a shot was poured in; 0: no pot was logged. */
export function heatOfShot(table: Table, shot: Shot): number {
  const heats = table.pots
    .filter((pot) => shot.potIds.includes(pot.id))
    .map((pot) => heatNumberAt(pot, shot.filledAt));
  return Math.min(255, Math.round(Math.max(0, ...heats)));
}

function colourwaysOf(table: Table): Columns['colourways'] {
  const mixes = new Map<string, Columns['colourways'][number]>();
  for (const pot of table.pots) {
    const key = pot.colourwayId ?? `unnamed ${pot.colourwayName}`;
    const other = mixes.get(key);
    const swatches = [...(other?.swatches ?? []), ...(pot.swatch ? [pot.swatch] : [])];
    mixes.set(key, {
      colourwayId: pot.colourwayId,
      name: pot.colourwayName,
      swatches: [...new Set(swatches)].slice(0, 2),
    });
  }
  mixes.set('none', { colourwayId: null, name: '', swatches: [] });
  return [...mixes.values()];
}

function colourwayIndex(table: Table, colourways: Columns['colourways'], shot: Shot): number {
  const pot = table.pots.find(({ id }) => shot.potIds.includes(id));
  const found = colourways.findIndex(
    ({ colourwayId, name }) =>
      colourwayId === (pot?.colourwayId ?? null) && name === (pot?.colourwayName ?? ''),
  );
  return found === -1 ? colourways.length - 1 : found;
}

function coldFlagOf(isCold: boolean | null): number {
  if (isCold === null) return noFlag;
  return isCold ? coldFlag : warmFlag;
}

function bytes(shots: readonly Shot[], value: (shot: Shot) => number): Uint8Array {
  return Uint8Array.from(shots, value);
}

function cellsOf(shots: readonly Shot[]): Pick<Columns, 'firstCell' | 'cells'> {
  const firstCell = new Uint32Array(shots.length + 1);
  shots.forEach((shot, index) => {
    firstCell[index + 1] = (firstCell[index] ?? 0) + shot.results.length;
  });
  const codes = shots.flatMap((shot) => shot.results.map((result) => resultCodes.indexOf(result)));
  return { firstCell, cells: Uint8Array.from(codes) };
}
