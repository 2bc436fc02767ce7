import type { CavityResults } from '#calc/cavity-results.ts';
import {
  type Columns,
  closedCode,
  coldFlag,
  goodCode,
  noFlag,
  notCheckedCode,
  resultCodes,
} from '#calc/columns.ts';
import type { ShotCounts } from '#calc/yield.ts';
import type { Defect } from '#model/defect.ts';
import type { SessionId } from '#model/entry.ts';
import type { ColourwayId, InjectorId } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';
import type { Instant } from '#model/schemas.ts';

/** One shot of the past with what was noted beside it. */
export interface LoggedShot {
  sessionId: SessionId;
  mouldId: MouldId;
  filledAt: Instant;
  /** Counted per session and mould, from 1. */
  number: number;
  /** Null: a mould without the cold flag. */
  isCold: boolean | null;
  /** Mould over room temperature just before the shot, K, by the heat model. */
  aboveK: number;
  /** The heat the pot was in; 0: no pot was logged. */
  heat: number;
  /** How long the mould stayed shut, s; 0: not known. */
  openSec: number;
  injectorId: InjectorId | null;
  colourwayId: ColourwayId | null;
  /** Result codes, cavity after cavity. */
  cells: Uint8Array;
}

/** What is counted as the outcome: one defect, or any of them. */
export type Outcome = Defect | 'bad';

/** The shots of one mould, or of all with `null`, in the order of filling. */
export function loggedShots(
  columns: readonly Columns[],
  mouldId: MouldId | null = null,
): LoggedShot[] {
  return columns.flatMap((session) => {
    const shots: LoggedShot[] = [];
    const counts = session.moulds.map(() => 0);
    // The heat model starts every mould at room temperature, so its first shot tells the room's.
    const roomC: number[] = [];
    for (const [shot, of] of session.mould.entries()) {
      const mould = session.moulds[of];
      if (!mould) continue;
      const number = (counts[of] ?? 0) + 1;
      counts[of] = number;
      const tempC = session.tempC[shot] ?? 0;
      roomC[of] ??= tempC;
      if (mouldId !== null && mould.mouldId !== mouldId) continue;
      const flag = session.cold[shot];
      shots.push({
        sessionId: session.sessionId,
        mouldId: mould.mouldId,
        filledAt: session.startedAt + (session.filledSec[shot] ?? 0) * 1_000,
        number,
        isCold: flag === noFlag ? null : flag === coldFlag,
        aboveK: tempC - (roomC[of] ?? tempC),
        heat: session.heat[shot] ?? 0,
        openSec: session.openSec[shot] ?? 0,
        injectorId: session.injectorIds[session.injector[shot] ?? -1] ?? null,
        colourwayId: session.colourways[session.colourway[shot] ?? -1]?.colourwayId ?? null,
        cells: session.cells.subarray(session.firstCell[shot], session.firstCell[shot + 1]),
      });
    }
    return shots;
  });
}

/** The newest warm shots of all moulds, at most so many, in the order of filling. */
export function newestWarm(columns: readonly Columns[], most: number): LoggedShot[] {
  const found: LoggedShot[][] = [];
  let count = 0;
  for (let at = columns.length - 1; at >= 0 && count < most; at -= 1) {
    const own = warmShots(loggedShots(columns.slice(at, at + 1)));
    found.push(own);
    count += own.length;
  }
  return found.toReversed().flat().slice(-most);
}

/** All but the cold ones; a mould without the cold flag is always warm. */
export function warmShots(shots: readonly LoggedShot[]): LoggedShot[] {
  return shots.filter(({ isCold }) => isCold !== true);
}

/**
 * Shots by cavities: 1 where a cavity had the outcome, null where it was closed or nobody looked.
 * `since`: per cavity, from 1, the instant before which its results are of another state of the
 * mould and count as not recorded.
 */
export function cavityMatrix(
  shots: readonly LoggedShot[],
  outcome: Outcome,
  since: ReadonlyMap<number, Instant> = new Map(),
): CavityResults {
  const cavities = Math.max(0, ...shots.map(({ cells }) => cells.length));
  return shots.map(({ cells, filledAt }) =>
    Array.from({ length: cavities }, (_, index) => {
      if (filledAt < (since.get(index + 1) ?? 0)) return null;
      return resultIn(cells[index], outcome);
    }),
  );
}

/** Per session, the outcome and the looked-at of each shot; shots with nothing looked at are left out. */
export function countsBySession(
  shots: readonly LoggedShot[],
  outcome: Outcome | 'good',
): ShotCounts[] {
  const sessions = new Map<SessionId, { x: number[]; n: number[] }>();
  for (const shot of shots) {
    const { seen, checked } = countIn(shot.cells, outcome);
    if (checked === 0) continue;
    const own = sessions.get(shot.sessionId) ?? { x: [], n: [] };
    own.x.push(seen);
    own.n.push(checked);
    sessions.set(shot.sessionId, own);
  }
  return [...sessions.values()];
}

/** How often an outcome was seen in one shot, of how many cavities looked at. */
export function countIn(
  cells: Uint8Array,
  outcome: Outcome | 'good',
): { seen: number; checked: number } {
  let [seen, checked] = [0, 0];
  for (const code of cells) {
    const bad = resultIn(code, outcome === 'good' ? 'bad' : outcome);
    if (bad === null) continue;
    checked += 1;
    seen += outcome === 'good' ? 1 - bad : bad;
  }
  return { seen, checked };
}

/** The defects of some shots, commonest first. */
export function defectCounts(shots: readonly LoggedShot[]): [Defect, number][] {
  const counts = new Map<Defect, number>();
  for (const { cells } of shots) {
    for (const code of cells) {
      if (code === goodCode || code === closedCode || code === notCheckedCode) continue;
      const defect = resultCodes[code] as Defect;
      counts.set(defect, (counts.get(defect) ?? 0) + 1);
    }
  }
  return [...counts].sort(([, a], [, b]) => b - a);
}

function resultIn(code: number | undefined, outcome: Outcome): 0 | 1 | null {
  if (code === undefined || code === closedCode || code === notCheckedCode) return null;
  if (outcome === 'bad') return code === goodCode ? 0 : 1;
  return resultCodes[code] === outcome ? 1 : 0;
}
