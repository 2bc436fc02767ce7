import { type ColdShots, coldBelow, coldShots } from '#calc/cold-shots.ts';
import { type Columns, coldFlag, noFlag, warmFlag } from '#calc/columns.ts';
import { countIn, type LoggedShot, loggedShots } from '#calc/mould-shots.ts';
import { endOf } from '#calc/steps.ts';
import { defaultWarmAboveK } from '#calc/warmth.ts';
import type { ShotCounts } from '#calc/yield.ts';
import type { MouldId } from '#model/mould.ts';

/** A mould that stood for less than this since its last session may still have been warm. */
const cooledAfterMs = 2 * 3_600_000;

/** Sessions looked through in one go. */
const stepSessions = 100;

/** Where a mould's cold shots end, and how that is known. */
export interface ColdLine {
  /** A shot poured at less than this above the room is cold; null: no shot of this mould is. */
  aboveK: number | null;
  from: 'temperature' | 'shots' | 'none-seen' | 'usual';
  /** What its warm-ups say by the place of the shot. */
  said: ColdShots;
}

/** Good and looked-at per place after a warm-up, one list a session that began with a cold mould. */
export function warmUpsOf(columns: readonly Columns[], mouldId: MouldId): ShotCounts[] {
  const own = columns.filter(({ moulds }) => moulds.some((mould) => mould.mouldId === mouldId));
  return own.flatMap((session, index) => {
    const before = own[index - 1];
    if (before && session.startedAt - before.endedAt < cooledAfterMs) return [];
    const counts = loggedShots([session], mouldId).map(({ cells }) => countIn(cells, 'good'));
    return counts.length === 0
      ? []
      : [{ x: counts.map(({ seen }) => seen), n: counts.map(({ checked }) => checked) }];
  });
}

/**
 * The cold line of a mould as its own shots teach it: by predicted temperature where that explains
 * them clearly better than the place of the shot, else between the last cold and the first warm
 * place, else the usual line of a shop.
 */
export function coldLineOf(columns: readonly Columns[], mouldId: MouldId): ColdLine {
  return endOf(coldLineSteps(columns, mouldId));
}

/** The same in steps, so that a page can draw in between when the log is long. */
export function* coldLineSteps(
  columns: readonly Columns[],
  mouldId: MouldId,
): Generator<void, ColdLine> {
  const own = columns.filter(({ moulds }) => moulds.some((mould) => mould.mouldId === mouldId));
  const warmUps = warmUpsOf(own, mouldId);
  yield;
  const shots: LoggedShot[] = [];
  for (let at = 0; at < own.length; at += stepSessions) {
    for (const shot of loggedShots(own.slice(at, at + stepSessions), mouldId)) shots.push(shot);
    yield;
  }
  const said = coldShots(warmUps);
  yield;
  const tempered = shots.flatMap(({ cells, aboveK }) => {
    const { seen, checked } = countIn(cells, 'good');
    return checked > 0 ? [{ good: seen, total: checked, mouldC: aboveK }] : [];
  });
  const isEnough = said.kind !== 'too-early';
  const byTemperature = isEnough ? coldBelow(tempered, warmUps) : null;
  if (byTemperature && byTemperature.belowC > 0) {
    return { aboveK: byTemperature.belowC, from: 'temperature', said };
  }
  if (said.kind === 'needs') {
    const last = medianAboveK(shots, said.shots);
    const first = medianAboveK(shots, said.shots + 1);
    if (first > last) return { aboveK: Math.round((last + first) / 2), from: 'shots', said };
  }
  if (said.kind === 'none-seen') return { aboveK: null, from: 'none-seen', said };
  return { aboveK: defaultWarmAboveK, from: 'usual', said };
}

/** The moulds that were poured in some digests. */
export function mouldsIn(columns: readonly Columns[]): MouldId[] {
  return [...new Set(columns.flatMap(({ moulds }) => moulds.map(({ mouldId }) => mouldId)))];
}

/** The digests with the cold flags of each mould as its own line has them now. */
export function withLearntCold(columns: readonly Columns[], only?: MouldId): Columns[] {
  const ids = only ? [only] : mouldsIn(columns);
  return flaggedBy(columns, new Map(ids.map((id) => [id, coldLineOf(columns, id)])));
}

/**
 * The digests with the cold flags that these lines give. Moulds that never had a flag, because they
 * do not chill the plastic, keep none; moulds with the usual line or without one keep what was
 * flagged at the table.
 */
export function flaggedBy(
  columns: readonly Columns[],
  lines: ReadonlyMap<MouldId, ColdLine>,
): Columns[] {
  return columns.map((session) => {
    // Per mould, the temperature of its first shot, which is the room's.
    const roomC: number[] = [];
    const cold = session.cold.map((flag, shot) => {
      const of = session.mould[shot] ?? 0;
      const tempC = session.tempC[shot] ?? 0;
      const own = roomC[of] ?? tempC;
      roomC[of] = own;
      const mouldId = session.moulds[of]?.mouldId;
      const line = mouldId && lines.get(mouldId);
      if (flag === noFlag || !line || line.from === 'usual') return flag;
      return line.aboveK !== null && tempC - own < line.aboveK ? coldFlag : warmFlag;
    });
    return { ...session, cold };
  });
}

function medianAboveK(shots: readonly LoggedShot[], number: number): number {
  const values = shots.flatMap((shot) => (shot.number === number ? [shot.aboveK] : []));
  values.sort((a, b) => a - b);
  return values[Math.floor(values.length / 2)] ?? 0;
}
